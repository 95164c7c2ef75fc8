"""A terms file."""

from collections.abc import Iterator
from typing import Annotated

from pydantic import Field, PlainValidator

from tracksworn.inspection.file_types.base import Each, FileType, Needed, given
from tracksworn.inspection.file_types.fields import (
    Confidence,
    MachineHours,
    PercentRow,
    ShortText,
    machine_hours,
    scalar,
    word,
)
from tracksworn.inspection.file_types.header import header
from tracksworn.inspection.terms import Rule, Terms, Undecided
from tracksworn.inspection.vocabulary import Component, Kind
from tracksworn.inspection.written import TOP, FaultList, Record, Text

HoursRow = Annotated[float, PlainValidator(lambda key: machine_hours(Text(str(key), TOP))), scalar()]
Rows = Each[dict[HoursRow, PercentRow]]


class AllowedFile(FileType):
    """Percent worn against hours since fitted, by component."""

    any: Rows | None = Field(None, description="every component that is not named")
    link: Rows | None = Field(None, description="link rail")
    bushing: Rows | None = Field(None, description="bushing")
    pitch: Rows | None = Field(None, description="pitch")
    shoe: Rows | None = Field(None, description="shoe")
    lug: Rows | None = Field(None, description="lug of a rubber track")
    drive_lug: Rows | None = Field(None, description="drive lug of a rubber track")
    sprocket: Rows | None = Field(None, description="sprocket")
    front_idler: Rows | None = Field(None, description="front idler")
    rear_idler: Rows | None = Field(None, description="rear idler")
    bottom_roller: Rows | None = Field(None, description="bottom roller")
    top_roller: Rows | None = Field(None, description="top roller")

    def rules(self, faults: FaultList) -> None:
        """Two rows or more, and each hour once."""
        if not self.keys_written:
            faults.add(self.begins, "a component, or `any`, is missing here")
        for key, _ in self._by_key():
            node = self.written(key)
            if isinstance(node, Record) and len(node) < 2:
                faults.add(self.where(key), "at least two rows belong here, such as `{0: 10, 4000: 80}`")

    def _by_key(self) -> Iterator[tuple[str, dict[float, float]]]:
        for name, field in AllowedFile.model_fields.items():
            rows = getattr(self, name)
            if rows is not None:
                yield field.alias or name, rows

    def allowed(self) -> dict[Component | None, tuple[tuple[float, float], ...]]:
        """The plain values, rows in the order of their hours."""
        return {None if key == "any" else Component(key): tuple(sorted(rows.items())) for key, rows in self._by_key()}


class TermsFile(FileType):
    """What a warranty allows."""

    tracksworn: Needed[Annotated[str, *header(Kind.TERMS)]] = Field(
        description="the kind of file and its version: `terms 1`"
    )
    title: Needed[ShortText] = Field(description="what the cover is called")
    rule: Needed[Annotated[Rule, *word(Rule)]] = Field(description="how a verdict deals with uncertainty")
    confidence: Confidence | None = Field(None, description="confidence of a guarded verdict, 95 % where absent")
    undecided: Annotated[Undecided, *word(Undecided)] | None = Field(
        None, description="what an undecided verdict leads to"
    )
    hours_within: MachineHours | None = Field(None, description="doubt about the hours, as a half-width")
    allowed: Needed[AllowedFile] = Field(description="percent worn against hours since fitted")

    def terms(self) -> Terms:
        """The plain value of a file without faults."""
        return Terms(
            title=given(self.title),
            rule=given(self.rule),
            allowed=given(self.allowed).allowed(),
            confidence=0.95 if self.confidence is None else self.confidence,
            undecided=self.undecided,
            hours_within=self.hours_within or 0.0,
        )
