"""An inspection's file."""

import re
from collections.abc import Iterator
from pathlib import PurePosixPath
from typing import Annotated

from pydantic import Field, PlainValidator

from tracksworn.inspection import spots
from tracksworn.inspection.file_types import counts
from tracksworn.inspection.file_types.base import BY_SHAPE, AsMapping, AsText, Each, FileType, Needed, given
from tracksworn.inspection.file_types.fields import (
    AnyOrigin,
    Day,
    Factor,
    FittingEvidence,
    Length,
    Lot,
    MachineHours,
    Markdown,
    Number,
    RelativePath,
    ShortText,
    Temperature,
    YesOrNo,
    machine_hours,
    path_of,
    scalar,
    text_of,
    whole_between,
)
from tracksworn.inspection.file_types.header import header
from tracksworn.inspection.file_types.machine import MachineFile
from tracksworn.inspection.file_types.observations import ObservationFile, PhotoFile
from tracksworn.inspection.file_types.readings import ReadingsFile
from tracksworn.inspection.model import FittedPart, Fitting, Inspection, Inspector, Instrument, Surface
from tracksworn.inspection.vocabulary import Component, Kind
from tracksworn.inspection.written import FaultList, Mark, Record, Wrong, quoted

_UNKNOWN = "unknown"


def _fitted_in_short(node: object) -> Fitting:
    text = text_of(node)
    if text == "original":
        return Fitting(original=True)
    if text == _UNKNOWN:
        return Fitting()
    raise Wrong(
        f"{quoted(text)} is not known here; write `original`, `unknown`, or `{{at: HOURS, known from: invoice}}`"
    )


def _hours_or_unknown(node: object) -> float | None:
    text = text_of(node)
    return None if text == _UNKNOWN else machine_hours(text)


def _not_turned(node: object) -> bool | None:
    text = text_of(node)
    if text not in ("no", _UNKNOWN):
        raise Wrong(f"{quoted(text)} is not known here; write `turned: no`, or `turned at: HOURS`")
    return True if text == "no" else None


def _chart(node: object) -> PurePosixPath | str:
    text = text_of(node)
    if not re.match(r"\s*(none|no|n/a|-+|~)(\s|\(|$)", text, re.IGNORECASE):
        return path_of(text)
    form = re.fullmatch(r"\s*none\s*\((.*)\)\s*", text, re.DOTALL)
    if form is None or not form[1].strip():
        raise Wrong("where there is no chart, say why: `none (no figures for this make)`")
    return form[1].strip()


class InspectorFile(FileType):
    """Who looked, for whom, and with what interest."""

    name: Needed[ShortText] = Field(description="the inspector's name")
    organisation: ShortText | None = Field(None, description="the inspector's firm")
    qualification: ShortText | None = Field(None, description="what makes the inspector fit to judge")
    engaged_by: ShortText | None = Field(None, description="who asked for the inspection")
    interest_in_sale: ShortText | None = Field(None, description="what the inspector gains from a sale")

    def inspector(self) -> Inspector:
        """The plain value."""
        return Inspector(
            given(self.name), self.organisation, self.qualification, self.engaged_by, self.interest_in_sale
        )


class FittingFile(FileType):
    """Machine hours at which a part went on, or was turned."""

    at: Annotated[float | None, PlainValidator(_hours_or_unknown), scalar(examples=["5210"])] = Field(
        None, description="machine hours when it went on, or unknown"
    )
    known_from: FittingEvidence | None = Field(None, description="invoice, stamp, owner's word or earlier inspection")
    turned_at: MachineHours | None = Field(None, description="machine hours when the bushings were turned")
    turned: Annotated[bool | None, PlainValidator(_not_turned), scalar(examples=["no"])] = Field(
        None, description="`no` where the bushings were never turned"
    )
    origin: AnyOrigin | None = Field(None, description="whose part it is")

    def rules(self, faults: FaultList) -> None:
        """It was not turned before it went on."""
        if self.turned_at is not None and self.written("turned") is not None:
            faults.add(self.where_key("turned"), "`turned` and `turned at` contradict each other; keep one")
        if self.at is not None and self.turned_at is not None and self.turned_at < self.at:
            faults.add(self.where("turned at"), "it was turned before it went on; `turned at` is not below `at`")

    def fitting(self) -> Fitting:
        """The plain value."""
        return Fitting(self.at, self.known_from, self.turned_at, self.turned is True, self.origin)


class InstrumentFile(FileType):
    """A gauge."""

    resolution: Length | None = Field(None, description="the smallest step that it shows")
    accuracy: Length | None = Field(None, description="half-width of its error, by its maker")
    uncertainty: Length | None = Field(None, description="U from its certificate")
    k: Factor | None = Field(None, description="coverage factor of that U, 2 where absent")
    calibrated: Day | None = Field(None, description="when it was calibrated")
    due: Day | None = Field(None, description="when it must be calibrated again")
    certificate: ShortText | None = Field(None, description="number of its certificate")
    velocity: ShortText | None = Field(None, description="ultrasonic gauge: velocity of sound set")
    checked_on: ShortText | None = Field(None, description="what it was checked on before use")

    def rules(self, faults: FaultList) -> None:
        """Dates in order, and a factor only beside what it divides."""
        if self.due and self.calibrated and self.due < self.calibrated:
            faults.add(self.where("due"), f"`due` lies before `calibrated` ({self.calibrated})")
        if self.k is not None and self.written("uncertainty") is None:
            faults.add(self.where_key("k"), "`k` belongs to an `uncertainty`, which is missing here")

    def instrument(self, name: str) -> Instrument:
        """The plain value."""
        return Instrument(
            name=name,
            resolution=self.resolution,
            accuracy=self.accuracy,
            uncertainty=self.uncertainty,
            k=2.0 if self.k is None else self.k,
            calibrated=self.calibrated,
            due=self.due,
            certificate=self.certificate,
            velocity=self.velocity,
            checked_on=self.checked_on,
        )


class SurfaceFile(FileType):
    """The state of the surface that was measured."""

    cleaned: YesOrNo | None = Field(None, description="whether it was cleaned")
    temperature: Temperature | None = Field(None, description="its temperature, with C or F")


PartName = Annotated[FittedPart, PlainValidator(lambda key: spots.fitted_part(str(key))), scalar()]
GaugeName = Annotated[str, PlainValidator(lambda key: _gauge_name(str(key))), scalar()]
FittedEntry = Annotated[
    AsText[Annotated[Fitting, PlainValidator(_fitted_in_short), scalar(examples=["original"])]]
    | AsMapping[FittingFile],
    BY_SHAPE,
]
ChartName = Annotated[
    PurePosixPath | str,
    PlainValidator(_chart),
    scalar(examples=["../charts/hollin-h640e.yaml", "none (no figures for this make)"]),
]


def _gauge_name(key: str) -> str:
    if not key.strip() or len(key) > 100:
        raise Wrong("a gauge has a name of at most 100 characters")
    return key


class InspectionFile(FileType):
    """What one inspector recorded about one machine on one day."""

    tracksworn: Needed[Annotated[str, *header(Kind.INSPECTION)]] = Field(
        description="the kind of file and its version: `inspection 1`"
    )
    number: Needed[Number] = Field(description="the inspection's own number; it names files")
    revision: Annotated[int, *whole_between(0, 999)] | None = Field(None, description="0, and one more for each change")
    replaces: Annotated[int, *whole_between(0, 998)] | None = Field(None, description="the revision that this replaces")
    because: ShortText | None = Field(None, description="why it was replaced")
    inspected: Needed[Day] = Field(description="the day of the inspection, year-month-day")
    issued: Day | None = Field(None, description="the day of the document; else as inspected")
    lot: Lot | None = Field(None, description="the lot in a sale")
    place: ShortText | None = Field(None, description="where the machine stood")
    purpose: ShortText | None = Field(None, description="what the inspection is for")
    conditions: ShortText | None = Field(None, description="ground, weather, cleanliness, and what was done before")
    limits_of_access: ShortText | None = Field(None, description="what could not be reached")
    inspector: Needed[InspectorFile] = Field(description="who looked: at least a `name`")
    machine: Needed[MachineFile] = Field(description="the machine: maker, model, serial, layout and more")
    chart: Needed[ChartName] = Field(description="the wear chart's file, or `none (reason)`")
    letterhead: RelativePath | None = Field(None, description="the letterhead's file")
    prices: RelativePath | None = Field(None, description="the price file")
    terms: RelativePath | None = Field(None, description="the terms' file; asks for conformity")
    earlier: Each[list[RelativePath]] | None = Field(None, description="older inspections of the same machine")
    fitted: Each[dict[PartName, FittedEntry]] | None = Field(None, description="when each part went on")
    instruments: Each[dict[GaugeName, InstrumentFile]] | None = Field(None, description="the gauges used, by name")
    surface: SurfaceFile | None = Field(None, description="the state of the surface that was measured")
    readings: ReadingsFile | None = Field(None, description="what was measured or judged, by component")
    observations: Each[list[ObservationFile]] | None = Field(None, description="what was seen and graded")
    photos: Each[list[PhotoFile]] | None = Field(None, description="photos that belong to no single observation")
    notes: Markdown | None = Field(None, description="free text in Markdown, printed under Remarks")

    def rules(self, faults: FaultList) -> None:
        """What must hold between the parts of the file."""
        if not self.written("readings") and not self.written("observations"):
            faults.add(self.begins, "an inspection has at least one reading or observation; both are missing")
        self._tell_revision(faults)
        if self.issued and self.inspected and self.issued < self.inspected:
            faults.add(self.where("issued"), f"`issued` lies before `inspected` ({self.inspected})")
        self._tell_fitted(faults)
        self._tell_counts(faults)

    def _tell_revision(self, faults: FaultList) -> None:
        revision = self.revision or 0
        if revision > 0:
            for key in ("replaces", "because"):
                if self.written(key) is None:
                    faults.add(self.begins, f"`{key}` is missing, and revision {revision} needs it")
        elif self.written("replaces") is not None and self.written("revision") is None:
            faults.add(self.where_key("replaces"), "`replaces` stands here without a `revision` above 0")
        if self.replaces is not None and self.revision is not None and self.replaces >= self.revision:
            faults.add(self.where("replaces"), f"`replaces` is below `revision` ({self.revision})")

    def _tell_fitted(self, faults: FaultList) -> None:
        hours = self.machine.machine_hours if self.machine else None
        for part, entry in (self.fitted or {}).items():
            if not isinstance(entry, FittingFile):
                continue
            if part.component is not Component.BUSHING and (entry.written("turned at") or entry.written("turned")):
                faults.add(entry.begins, f"only bushings are turned, not a {part.component}")
            for key, at in (("at", entry.at), ("turned at", entry.turned_at)):
                if hours is not None and at is not None and round(at - hours, 6) > 0.0:
                    faults.add(entry.where(key), f"`{key}` is above the machine's hours ({hours:.10g})")

    def _tell_counts(self, faults: FaultList) -> None:
        observations = self.observations or ()
        if self.machine is not None:
            if self.readings is not None:
                counts.tell_readings(self.readings, self.machine, faults)
            counts.tell_observations(observations, self.machine, faults)
            counts.tell_fitted(self._fitted_parts(), self.machine, faults)
        counts.tell_total(self.readings, len(observations) + sum(1 for _ in self.photo_names()), faults)

    def _fitted_parts(self) -> Iterator[tuple[FittedPart, Mark]]:
        """Every part named under `fitted` that reads, and where."""
        node = self.written("fitted")
        for key, mark in node.keys_at.items() if isinstance(node, Record) else ():
            try:
                yield spots.fitted_part(key), mark
            except Wrong:
                continue

    def photo_names(self) -> Iterator[tuple[PurePosixPath, Mark]]:
        """Every photo that is named, and where."""
        if self.machine:
            for key, named in (("plate photo", self.machine.plate_photo), ("meter photo", self.machine.meter_photo)):
                if named:
                    yield named, self.machine.where(key)
        for observation in self.observations or ():
            yield from observation.listed("photos")
        for photo in self.photos or ():
            if photo.file:
                yield photo.file, photo.where("file")

    def inspection(self) -> Inspection:
        """The plain value of a file without faults."""
        chart = given(self.chart)
        readings = self.readings.of_components() if self.readings else ()
        temperatures = self.readings.joint_temperature if self.readings else None
        return Inspection(
            number=given(self.number),
            inspected=given(self.inspected),
            inspector=given(self.inspector).inspector(),
            machine=given(self.machine).machine(),
            chart=chart if isinstance(chart, PurePosixPath) else None,
            no_chart_because=chart if isinstance(chart, str) else None,
            readings={component: file.reading(component) for component, file in readings},
            joint_temperatures=temperatures.temperatures() if temperatures else None,
            observations=tuple(entry.observation() for entry in self.observations or ()),
            photos=tuple(entry.photo() for entry in self.photos or ()),
            instruments={name: entry.instrument(name) for name, entry in (self.instruments or {}).items()},
            surface=Surface(self.surface.cleaned, self.surface.temperature) if self.surface else Surface(),
            fitted={
                part: entry.fitting() if isinstance(entry, FittingFile) else entry
                for part, entry in (self.fitted or {}).items()
            },
            revision=self.revision or 0,
            replaces=self.replaces,
            because=self.because,
            issued=self.issued,
            lot=self.lot,
            place=self.place,
            purpose=self.purpose,
            conditions=self.conditions,
            limits_of_access=self.limits_of_access,
            notes=self.notes,
            letterhead=self.letterhead,
            prices=self.prices,
            terms=self.terms,
            earlier=tuple(self.earlier or ()),
        )
