"""Lots for listing sheets: an ordinary one, and the longest and barest that an inspection can be. All invented."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from builders import about, at_least, by_eye, chart, inspection, machine, reading, unseen, wears

from tracksworn.assessment.assess import assess
from tracksworn.documents.listing.build import listing
from tracksworn.documents.listing.view import Listing
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.letterhead import Letterhead, Signatory
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection, Observation, Spot
from tracksworn.inspection.prices import Price, Prices, Work
from tracksworn.inspection.values import ByPosition
from tracksworn.inspection.vocabulary import Component, Evidence, Grade, Layout, Side, Sign

LONG = "Consolidated Undercarriage Assessors and Valuers of the Upper Saltern and Lower Meadow Districts"
MANY = 20
CHART = chart(
    *(
        wears(component, 110.0, 10.0, share=0.1)
        for component in (
            Component.LINK,
            Component.BUSHING,
            Component.PITCH,
            Component.SHOE,
            Component.SPROCKET,
            Component.FRONT_IDLER,
            Component.REAR_IDLER,
            Component.BOTTOM_ROLLER,
            Component.TOP_ROLLER,
        )
    )
)
"""1 mm is 1 point."""
PRICES = Prices(
    as_of=date(2031, 3, 1),
    currency="EUR",
    labour_per_hour=95.0,
    visit_set_up=1800.0,
    track_off=6.0,
    components={one: {Work.REPLACE: Price(parts=123_456.0, labour=20.0)} for one in CHART.components},
)


def seen(
    *words: Sign, at: Component, side: Side, number: int | None = None, grade: Grade = Grade.SEVERE
) -> Observation:
    return Observation(at=Spot(part=at, side=side, number=number), seen=words, grade=grade)


def fourteen() -> tuple[Observation, ...]:
    """As many as can be pinned, each of which asks for action."""
    rollers = [
        seen(Sign.LEAK, Sign.SEIZED, at=Component.BOTTOM_ROLLER, side=side, number=number)
        for side in Side
        for number in range(1, 6)
    ]
    wheels = [
        seen(Sign.CRACK, at=component, side=side)
        for side in Side
        for component in (Component.FRONT_IDLER, Component.SPROCKET)
    ]
    return (*rollers, *wheels)


def told(*readings: Any, **more: Any) -> Inspection:
    """An inspection with lot and hours."""
    found = more.pop("machine", machine(bottom_rollers=8, top_rollers=2))
    return replace(inspection(*readings, machine=found, observations=more.pop("observations", ())), lot="114", **more)


def lot(found: Inspection, wear: WearChart | None = CHART, **more: Any) -> Listing:
    """The sheet of an inspection."""
    letterhead, prices, paper = more.pop("letterhead", None), more.pop("prices", None), more.pop("paper", None)
    dossier = Dossier(found, Path("TEST-1"), wear, letterhead, prices=prices)
    return listing(dossier, assess(found, wear, prices=prices), paper=paper, **more)


def measured(size: float = 50.0) -> list[Any]:
    """Every component measured on both sides."""
    return [reading(component, size, size + 9.0) for component in CHART.components]


def ordinary(**more: Any) -> Listing:
    """A lot with a leak, a part that was not seen and a forecast."""
    readings = [*measured()[:-1], reading(Component.TOP_ROLLER, 40.0, unseen("packed with clay"))]
    leak = seen(Sign.LEAK, at=Component.BOTTOM_ROLLER, side=Side.LEFT, number=3)
    whole = machine(bottom_rollers=8, top_rollers=2, hours=Hours(4000.0, Evidence.METER))
    found = told(*readings, machine=whole, observations=(leak,))
    return lot(replace(found, fitted=_original(found)), prices=PRICES, **more)


def _original(found: Inspection) -> Mapping[Any, Fitting]:
    return {FittedPart(component): Fitting(original=True) for component in found.readings}


def longest(paper: str = "letter") -> Listing:
    """Names, reasons, observations, rollers and terms as many and as long as may be, on the smaller paper."""
    reasons = {
        number: unseen(f"guard {number} of the makeshift kind, bolted on and painted over")
        for number in range(1, MANY + 1)
    }
    by_position = ByPosition(reasons)
    readings = [one for one in measured(8.0) if one.component is not Component.BOTTOM_ROLLER]
    whole = replace(
        machine(
            bottom_rollers=MANY, top_rollers=6, hours=Hours(123_456.0, Evidence.OWNERS_WORD, meter_replaced_at=99_999.0)
        ),
        maker=LONG,
        model="H-100 " * 8,
        serial="HLN100X" * 6,
    )
    found = told(
        *readings,
        reading(Component.BOTTOM_ROLLER, by_position, by_position),
        machine=whole,
        observations=fourteen(),
        limits_of_access=f"{LONG}; " * 4,
        place=LONG,
        revision=3,
        replaces=2,
        because=f"{LONG}; " * 3,
    )
    found = replace(found, lot="1234567890123456", inspector=replace(found.inspector, name=LONG, organisation=LONG))
    head = Letterhead(LONG, Signatory(LONG, LONG), standing_terms=f"{LONG}. " * 12)
    return lot(found, letterhead=head, prices=PRICES, paper=paper)


def _by_eye(paper: str | None = None) -> Listing:
    readings = [reading(one, about(40), at_least(80)) for one in CHART.components]
    return lot(told(*readings, observations=fourteen()), None, paper=paper)


def _all_unseen(paper: str | None = None) -> Listing:
    readings = [reading(one, unseen(f"{LONG} {one}"), unseen("mud")) for one in CHART.components]
    return lot(told(*readings), paper=paper)


def _without_chart(paper: str | None = None) -> Listing:
    readings = [reading(one, 40.0, 50.0) for one in CHART.components]
    return lot(told(*readings, machine=machine(Layout.EXCAVATOR, bottom_rollers=1, top_rollers=0)), None, paper=paper)


def _ranges(paper: str | None = None) -> Listing:
    """Rubber with every row there can be beside it."""
    rows = [
        reading(one, by_eye(30, 70), by_eye(45, 95)) for one in (*CHART.components, Component.LUG, Component.DRIVE_LUG)
    ]
    whole = machine(Layout.RUBBER, bottom_rollers=MANY, top_rollers=6)
    return lot(told(*rows, machine=whole, observations=fourteen()), None, paper=paper)


EXTREMES: Mapping[str, Callable[[], Listing]] = {
    "longest": longest,
    "longest on A4": lambda: longest("A4"),
    "all by eye": _by_eye,
    "all by eye on letter": lambda: _by_eye("letter"),
    "nothing seen": _all_unseen,
    "nothing seen on letter": lambda: _all_unseen("letter"),
    "no chart": _without_chart,
    "every row": lambda: _ranges("letter"),
}
"""By name, what makes each."""
