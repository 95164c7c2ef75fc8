"""A wear chart's file."""

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Annotated

from pydantic import Field, PlainValidator

from tracksworn.inspection.chart import ChartComponent, Geometry, WearChart
from tracksworn.inspection.file_types.base import Each, FileType, Needed, given
from tracksworn.inspection.file_types.dimensions import DimensionsFile, EndsFile
from tracksworn.inspection.file_types.fields import (
    AnyLayout,
    AnyLimitMeans,
    AnyPartPlace,
    Length,
    LengthOrNought,
    LengthRange,
    PlainNumber,
    ShortText,
    scalar,
    text_of,
    whole_between,
)
from tracksworn.inspection.file_types.header import header
from tracksworn.inspection.vocabulary import CHAINS, LINKS_A_SIDE, ROLLERS, Component, Kind
from tracksworn.inspection.written import FaultList, Wrong, quoted


def _over(node: object) -> int:
    text = text_of(node)
    form = re.fullmatch(r"\s*([0-9]{1,2})\s*links?\s*", text)
    if form is None or not 1 <= int(form[1]) <= 20:
        raise Wrong(f"{quoted(text)} does not read; write how many links a span covers, such as `4 links`")
    return int(form[1])


_SHRINKS = frozenset({*CHAINS, *ROLLERS})
"""What has one usual way to be measured, by which its size falls; pitch alone always grows."""

GaugeName = Annotated[str, PlainValidator(str), scalar()]


class WornComponentFile(DimensionsFile):
    """A component that wears: its sizes, or its share alone."""

    measure: ShortText | None = Field(None, description="what is measured, and where")
    limit_means: AnyLimitMeans | None = Field(None, description="the repair that ends at the limit")
    ways: Each[dict[GaugeName, DimensionsFile]] | None = Field(
        None, description="sizes by the name of the gauge, where it is measured in more ways than one"
    )
    places: Each[list[AnyPartPlace]] | None = Field(None, description="the places where it is measured")
    end_play: LengthOrNought | None = Field(None, description="the most end play that it may have")
    share: PlainNumber | None = Field(None, description="part of the undercarriage's cost, both sides together")

    def rules(self, faults: FaultList) -> None:
        """What sizes need, and that they stand in one place only."""
        super().rules(faults)
        if self.written("ways") is not None and self.has_sizes:
            faults.add(self.where_key("ways"), "sizes stand here beside `ways`; put them under one of the ways")
        if (self.has_sizes or self.ways) and self.written("limit means") is None:
            faults.add(self.begins, "`limit means` is missing here: turn, rebuild or replace")
        if self.written("measure") is None and set(self.keys_written) - {"share"}:
            faults.add(self.begins, "`measure` is missing here: what is measured, and where")
        for name, way in (self.ways or {}).items():
            if not way.has_sizes:
                faults.add(way.begins, f"the way {quoted(name)} has no sizes; `new` and `limit` belong here")
        if self.places is not None and len(set(self.places)) < len(self.places):
            faults.add(self.where("places"), "a place stands here twice")

    def component(self, component: Component) -> ChartComponent:
        """The plain value."""
        return ChartComponent(
            component=component,
            measure=self.measure,
            limit_means=self.limit_means,
            dimensions=self.dimensions(),
            ways={name: given(way.dimensions()) for name, way in (self.ways or {}).items()},
            places=tuple(self.places or ()),
            share=self.share,
            end_play=self.end_play,
        )


class BushingFile(WornComponentFile):
    """Bushings, which may be turned."""

    turns: Annotated[int, *whole_between(0, 9)] | None = Field(None, description="how often it may be turned")

    def component(self, component: Component) -> ChartComponent:
        """The plain value."""
        return replace(super().component(component), turns=self.turns)


class PitchFile(WornComponentFile):
    """Pitch, over several links."""

    over: Annotated[int, PlainValidator(_over), scalar(examples=["4 links"])] | None = Field(
        None, description="how many links one span covers"
    )

    def component(self, component: Component) -> ChartComponent:
        """The plain value."""
        return replace(super().component(component), over_links=self.over)


class RollerFile(WornComponentFile):
    """Rollers, of which the first and the last may differ."""

    ends: EndsFile | None = Field(None, description="sizes of the first and the last position, where they differ")

    def rules(self, faults: FaultList) -> None:
        """Ends go beside plain sizes alone."""
        super().rules(faults)
        if self.written("ends") is None:
            return
        for key in ("table", "ways"):
            if self.written(key) is not None:
                faults.add(self.where_key("ends"), f"`ends` does not stand beside `{key}`")
        if not self.has_sizes and self.written("ways") is None:
            faults.add(self.where_key("ends"), "`ends` stands beside `new` and `limit`, which are missing")

    def component(self, component: Component) -> ChartComponent:
        """The plain value."""
        return replace(super().component(component), ends=self.ends.ends() if self.ends else None)


class TravelFile(FileType):
    """Adjuster or cushion, which have travel."""

    measure: Needed[ShortText] = Field(description="what is measured, and where")
    start: LengthOrNought | None = Field(None, description="size with no travel used")
    end: LengthOrNought | None = Field(None, description="size with all travel used")

    def rules(self, faults: FaultList) -> None:
        """Both ends of the travel, apart from one another."""
        for key, other in (("start", "end"), ("end", "start")):
            if self.written(key) is None and self.written(other) is not None:
                faults.add(self.begins, f"`{key}` is missing here; `{other}` alone gives no travel")
        if self.start is not None and self.start == self.end:
            faults.add(self.where("end"), "`start` and `end` are the same size")

    def component(self, component: Component) -> ChartComponent:
        """The plain value."""
        return ChartComponent(component, measure=self.measure, start=self.start, end=self.end)


class SagFile(FileType):
    """Sag, which has a range."""

    measure: Needed[ShortText] = Field(description="what is measured, and where")
    range: LengthRange | None = Field(None, description="the range that sag should lie in")

    def component(self, component: Component) -> ChartComponent:
        """The plain value."""
        return ChartComponent(component, measure=self.measure, range=self.range)


class ComponentsFile(FileType):
    """What the chart says of each component."""

    link: WornComponentFile | None = Field(None, description="link rail")
    bushing: BushingFile | None = Field(None, description="bushing")
    pitch: PitchFile | None = Field(None, description="pitch over several links")
    shoe: WornComponentFile | None = Field(None, description="shoe, by its grouser")
    lug: WornComponentFile | None = Field(None, description="lug of a rubber track")
    drive_lug: WornComponentFile | None = Field(None, description="drive lug of a rubber track")
    sprocket: WornComponentFile | None = Field(None, description="sprocket")
    front_idler: WornComponentFile | None = Field(None, description="front idler")
    rear_idler: WornComponentFile | None = Field(None, description="rear idler")
    bottom_roller: RollerFile | None = Field(None, description="bottom roller")
    top_roller: RollerFile | None = Field(None, description="top roller")
    adjuster: TravelFile | None = Field(None, description="track adjuster, by the rod that shows")
    cushion: TravelFile | None = Field(None, description="cushion, by what is left of its travel")
    sag: SagFile | None = Field(None, description="sag of the track")

    def rules(self, faults: FaultList) -> None:
        """A chart says something of at least one component; sizes that grow where they should shrink are warned of."""
        if not self.keys_written:
            faults.add(self.begins, "a component is missing here")
        for component, file in self.of_components():
            if isinstance(file, WornComponentFile) and file.new and isinstance(file.limit, float):
                grows = file.limit > file.new[0]
                if grows and component in _SHRINKS:
                    faults.warn(file.where("limit"), f"`limit` is above `new`, and a {component} wears down")
                if not grows and component is Component.PITCH:
                    faults.warn(file.where("limit"), "`limit` is below `new`, and pitch grows with wear")

    def of_components(self) -> Iterator[tuple[Component, WornComponentFile | TravelFile | SagFile]]:
        """What there is, in the order written."""
        for key in self.keys_written:
            file = getattr(self, key.replace(" ", "_"), None)
            if isinstance(file, WornComponentFile | TravelFile | SagFile):
                yield Component(key), file


class GeometryFile(FileType):
    """For the side elevation, from the front idler's centre, towards the rear."""

    idler_centres: Length | None = Field(None, description="from front to rear idler, centre to centre")
    sprocket_back: LengthOrNought | None = Field(None, description="sprocket centre behind the front idler's")
    sprocket_height: LengthOrNought | None = Field(None, description="sprocket centre above the front idler's")
    front_idler: Length | None = Field(None, description="tread diameter, new")
    rear_idler: Length | None = Field(None, description="tread diameter, new")
    sprocket: Length | None = Field(None, description="diameter, new")
    teeth: Annotated[int, *whole_between(5, 99)] | None = Field(None, description="teeth of the sprocket")
    bottom_roller: Length | None = Field(None, description="tread diameter, new")
    top_roller: Length | None = Field(None, description="tread diameter, new")
    pitch: Length | None = Field(None, description="pin to pin, one link")
    links: Annotated[int, *whole_between(*LINKS_A_SIDE)] | None = Field(None, description="links a side")
    bottom_rollers_at: Each[list[LengthOrNought]] | None = Field(
        None, description="centres of the bottom rollers behind the front idler's"
    )
    top_rollers_at: Each[list[LengthOrNought]] | None = Field(
        None, description="centres of the top rollers behind the front idler's"
    )

    def rules(self, faults: FaultList) -> None:
        """Rollers stand one behind the other."""
        for key, centres in (("bottom rollers at", self.bottom_rollers_at), ("top rollers at", self.top_rollers_at)):
            if centres is not None and any(b <= a for a, b in pairwise(centres)):
                faults.add(self.where(key), "rollers are listed from the front, each further back than the one before")

    def geometry(self) -> Geometry:
        """The plain value."""
        lists = {"bottom_rollers_at", "top_rollers_at"}
        plain = {name: getattr(self, name) for name in GeometryFile.model_fields if name not in lists}
        return Geometry(
            **plain,
            bottom_rollers_at=tuple(self.bottom_rollers_at) if self.bottom_rollers_at else None,
            top_rollers_at=tuple(self.top_rollers_at) if self.top_rollers_at else None,
        )


class ChartFile(FileType):
    """For one track group: each component's new size, its limit and what that limit means."""

    tracksworn: Needed[Annotated[str, *header(Kind.CHART)]] = Field(
        description="the kind of file and its version: `wear chart 1`"
    )
    title: Needed[ShortText] = Field(description="the track group that the chart is for")
    source: Needed[ShortText] = Field(description="where the sizes come from, with edition or date")
    stands_in_for: ShortText | None = Field(None, description="the machine that the chart was not made for")
    layout: Needed[AnyLayout] = Field(description="how wheels and frame are arranged")
    geometry: GeometryFile | None = Field(None, description="sizes for the side elevation")
    narrowest_shoe: Length | None = Field(None, description="the narrowest shoe that the machine is sold with")
    components: Needed[ComponentsFile] = Field(description="sizes, limits and shares by component")

    def chart(self) -> WearChart:
        """The plain value of a file without faults."""
        return WearChart(
            title=given(self.title),
            source=given(self.source),
            layout=given(self.layout),
            components={name: file.component(name) for name, file in given(self.components).of_components()},
            geometry=self.geometry.geometry() if self.geometry else None,
            narrowest_shoe=self.narrowest_shoe,
            stands_in_for=self.stands_in_for,
        )
