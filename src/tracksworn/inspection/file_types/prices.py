"""A price file."""

from collections.abc import Iterator
from typing import Annotated

from pydantic import Field, PlainValidator

from tracksworn.inspection.file_types.base import Each, FileType, Needed, given
from tracksworn.inspection.file_types.fields import AnyComponent, Day, Labour, Money, Percent, scalar, text_of
from tracksworn.inspection.file_types.header import header
from tracksworn.inspection.prices import Price, Prices, Work
from tracksworn.inspection.vocabulary import TRAVELS, Component, Kind
from tracksworn.inspection.written import FaultList, Wrong, quoted


def _currency(node: object) -> str:
    from babel.numbers import is_currency  # noqa: PLC0415 - loads tables of languages, for price files alone

    text = text_of(node)
    if not is_currency(str(text)):
        raise Wrong(f"{quoted(text)} is no currency code of ISO 4217, such as `EUR`")
    return str(text)


class PriceFile(FileType):
    """What one way costs."""

    parts: Money | None = Field(None, description="parts, for a side; for rollers each")
    labour: Labour | None = Field(None, description="labour in hours, such as 14 h")
    from_: Percent | None = Field(None, description="percent worn from which it makes sense")
    until: Percent | None = Field(None, description="percent worn up to which it can be done")

    def rules(self, faults: FaultList) -> None:
        """A price has parts or labour, and a window that is not turned round."""
        if self.written("parts") is None and self.written("labour") is None:
            faults.add(self.begins, "`parts` or `labour` is missing here")
        if self.from_ is not None and self.until is not None and self.from_ >= self.until:
            faults.add(self.where("until"), "`until` is above `from`")

    def price(self) -> Price:
        """The plain value."""
        return Price(self.parts or 0.0, self.labour or 0.0, self.from_, self.until)


class WorkFile(FileType):
    """The ways to deal with one component."""

    replace: PriceFile | None = Field(None, description="with a new part")
    turn: PriceFile | None = Field(None, description="turn pins and bushings")
    rebuild: PriceFile | None = Field(None, description="build the worn surface up again")
    re_shell: PriceFile | None = Field(None, alias="re-shell", description="a new shell on the old roller")
    re_grouser: PriceFile | None = Field(None, alias="re-grouser", description="new grouser bar on the old shoe")
    swap_sides: PriceFile | None = Field(None, description="change left and right")
    swap_positions: PriceFile | None = Field(None, description="change positions on a side")

    def by_work(self) -> dict[Work, Price]:
        """The plain values, in the order of the vocabulary."""
        found = ((work, getattr(self, work.value.replace(" ", "_").replace("-", "_"))) for work in Work)
        return {work: file.price() for work, file in found if isinstance(file, PriceFile)}


class PricedComponentsFile(FileType):
    """Prices by component."""

    link: WorkFile | None = Field(None, description="link assemblies, a side")
    bushing: WorkFile | None = Field(None, description="pins and bushings, a side")
    pitch: WorkFile | None = Field(None, description="what mends pitch, a side")
    shoe: WorkFile | None = Field(None, description="shoes, a side")
    lug: WorkFile | None = Field(None, description="rubber track by its lugs, a side")
    drive_lug: WorkFile | None = Field(None, description="rubber track by its drive lugs, a side")
    sprocket: WorkFile | None = Field(None, description="sprocket, a side")
    front_idler: WorkFile | None = Field(None, description="front idler, a side")
    rear_idler: WorkFile | None = Field(None, description="rear idler, a side")
    bottom_roller: WorkFile | None = Field(None, description="bottom rollers, each")
    top_roller: WorkFile | None = Field(None, description="top rollers, each")

    def of_components(self) -> Iterator[tuple[Component, WorkFile]]:
        """What is priced, in the order of the vocabulary."""
        for component in Component:
            file = getattr(self, component.value.replace(" ", "_"), None)
            if isinstance(file, WorkFile):
                yield component, file


class PricesFile(FileType):
    """What work costs."""

    tracksworn: Needed[Annotated[str, *header(Kind.PRICES)]] = Field(
        description="the kind of file and its version: `prices 1`"
    )
    as_of: Needed[Day] = Field(description="the day the prices are of")
    currency: Needed[Annotated[str, PlainValidator(_currency), scalar(examples=["EUR"])]] = Field(
        description="its code of ISO 4217"
    )
    labour_per_hour: Needed[Money] = Field(description="what an hour of labour costs")
    visit_set_up: Needed[Money] = Field(alias="visit set-up", description="what every visit costs before any work")
    track_off: Needed[Labour] = Field(description="labour to take a track off and put it on, a side, such as 6 h")
    together: Each[list[Each[list[AnyComponent]]]] | None = Field(
        None, description="components that are always worked on together"
    )
    components: PricedComponentsFile | None = Field(None, description="prices by component")

    def rules(self, faults: FaultList) -> None:
        """Groups of two or more components that wear."""
        for group in self.together or ():
            if len(set(group)) < 2 or any(component in TRAVELS for component in group):
                faults.add(self.where("together"), "each list holds two or more components that wear")

    def prices(self) -> Prices:
        """The plain value of a file without faults."""
        return Prices(
            as_of=given(self.as_of),
            currency=given(self.currency),
            labour_per_hour=given(self.labour_per_hour),
            visit_set_up=given(self.visit_set_up),
            track_off=given(self.track_off),
            components={
                name: file.by_work() for name, file in (self.components.of_components() if self.components else ())
            },
            together=tuple(tuple(group) for group in self.together or ()),
        )
