"""What may stand under `machine`."""

from typing import Annotated

from pydantic import Field

from tracksworn.inspection.file_types.base import BY_SHAPE, AsMapping, AsText, FileType, Needed, given
from tracksworn.inspection.file_types.fields import (
    YEARS,
    AnyImpact,
    AnyLayout,
    AnyShoeKind,
    AnySuspension,
    AnyTrack,
    GroundWords,
    HoursPerWeek,
    Length,
    MachineHours,
    MeterEvidence,
    RelativePath,
    ShareOfHours,
    ShortText,
    whole_between,
)
from tracksworn.inspection.model import Hours, Machine, Shoe
from tracksworn.inspection.values import PerSide
from tracksworn.inspection.vocabulary import LINKS_A_SIDE, ROLLERS, ROLLERS_A_SIDE, Component, Evidence, Side

LinkCount = Annotated[int, *whole_between(*LINKS_A_SIDE)]


class HoursFile(FileType):
    """Machine hours, and what they rest on."""

    shown: Needed[MachineHours] = Field(description="the hours that the meter shows")
    known_from: MeterEvidence | None = Field(None, description="meter, telematics or owner's word")
    meter_replaced_at: MachineHours | None = Field(None, description="machine hours when the meter was replaced")

    def hours(self) -> Hours:
        """The plain value."""
        return Hours(given(self.shown), self.known_from or Evidence.METER, self.meter_replaced_at)


class LinkCountsFile(FileType):
    """Links counted on each side."""

    left: LinkCount | None = Field(None, description="links counted on the left")
    right: LinkCount | None = Field(None, description="links counted on the right")


class ShoeFile(FileType):
    """The shoes fitted."""

    width: Length | None = Field(None, description="width of a shoe")
    kind: AnyShoeKind | None = Field(None, description="the ground side of a shoe")


class MachineFile(FileType):
    """The machine as found."""

    maker: Needed[ShortText] = Field(description="who made the machine")
    model: Needed[ShortText] = Field(description="the maker's name for the model")
    serial: Needed[ShortText] = Field(description="the serial number as on the plate")
    year: Annotated[int, *whole_between(*YEARS)] | None = Field(None, description="year of manufacture")
    hours: Annotated[AsText[MachineHours] | AsMapping[HoursFile], BY_SHAPE] | None = Field(
        None, description="machine hours, known from the meter; or what they are known from"
    )
    hours_per_week: HoursPerWeek | None = Field(None, description="usual hours of work a week")
    travel_share: ShareOfHours | None = Field(None, description="part of the hours that is travel, in %")
    layout: Needed[AnyLayout] = Field(description="how wheels and frame are arranged")
    rollers: AnySuspension | None = Field(None, description="how the bottom rollers are carried")
    track: AnyTrack | None = Field(None, description="what keeps pin and bushing apart")
    bottom_rollers: Annotated[int, *whole_between(*ROLLERS_A_SIDE[Component.BOTTOM_ROLLER])] | None = Field(
        None, description="bottom rollers a side"
    )
    top_rollers: Annotated[int, *whole_between(*ROLLERS_A_SIDE[Component.TOP_ROLLER])] | None = Field(
        None, description="top rollers a side"
    )
    links: LinkCountsFile | None = Field(None, description="links counted on each side")
    shoe: ShoeFile | None = Field(None, description="the shoes fitted")
    ground: GroundWords | None = Field(None, description="what the machine works on")
    impact: AnyImpact | None = Field(None, description="which limits of the chart apply")
    plate_photo: RelativePath | None = Field(None, description="photo of the plate")
    meter_photo: RelativePath | None = Field(None, description="photo of the hour meter")

    @property
    def machine_hours(self) -> float | None:
        """Hours since the machine was new, where they read."""
        if isinstance(self.hours, HoursFile):
            return None if self.hours.shown is None else self.hours.hours().machine
        return self.hours

    def count(self, component: Component) -> int | None:
        """How many rollers of a kind a side has."""
        if component not in ROLLERS:
            return None
        return self.bottom_rollers if component is Component.BOTTOM_ROLLER else self.top_rollers

    def links_on(self, side: Side | None) -> int | None:
        """Links counted on that side; the larger count where no side is given."""
        if self.links is None:
            return None
        counts = {Side.LEFT: self.links.left, Side.RIGHT: self.links.right}
        if side is not None:
            return counts[side]
        known = [count for count in counts.values() if count is not None]
        return max(known) if len(known) == len(counts) else None

    def machine(self) -> Machine:
        """The plain value."""
        hours = self.hours.hours() if isinstance(self.hours, HoursFile) else self.hours
        return Machine(
            maker=given(self.maker),
            model=given(self.model),
            serial=given(self.serial),
            layout=given(self.layout),
            year=self.year,
            hours=Hours(hours) if isinstance(hours, float) else hours,
            hours_per_week=self.hours_per_week,
            travel_share=self.travel_share,
            suspension=self.rollers,
            track=self.track,
            bottom_rollers=self.bottom_rollers,
            top_rollers=self.top_rollers,
            links=PerSide(self.links.left, self.links.right) if self.links else PerSide(None, None),
            shoe=Shoe(self.shoe.width, self.shoe.kind) if self.shoe else Shoe(),
            ground=self.ground or (),
            impact=self.impact,
            plate_photo=self.plate_photo,
            meter_photo=self.meter_photo,
        )
