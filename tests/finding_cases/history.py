"""Older inspections of the same machine: readings that contradict them, and wear that has become faster."""

from datetime import date
from typing import Any

from finding_cases.case import WATCH, Case
from finding_cases.hours import ahead
from finding_cases.walks import C, G, P, Pair, S, Walk, saw

from tracksworn.assessment.decisions import RateFrom
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspector
from tracksworn.inspection.vocabulary import Component, Evidence, Side

OLDER = {"number": "TEST-0", "inspected": date(2030, 2, 11)}
OLDEST = {"number": "TEST-00", "inspected": date(2029, 1, 15)}
SHORTLY_BEFORE = {"number": "TEST-0", "inspected": date(2031, 4, 15)}
ROLLER = FittedPart(C.BOTTOM_ROLLER, Side.LEFT, 2)


def at(hours: float) -> dict[str, Any]:
    """A machine of so many hours."""
    return {"hours": Hours(hours)}


def before(readings: dict[Component, Pair], hours: float | None = 4000.0, **more: Any) -> Walk:
    """An older walk round the same machine."""
    return Walk(readings, machine=at(hours) if hours is not None else {}, **{"named": OLDER, **more})


def again(readings: dict[Component, Pair], *earlier: Walk, hours: float | None = 4800.0, **more: Any) -> Walk:
    """The present walk."""
    return Walk(readings, machine=at(hours) if hours is not None else {}, earlier=earlier, **more)


def fitted(hours: float, **more: Any) -> Fitting:
    return Fitting(at=hours, known_from=Evidence.INVOICE, **more)


LATELY = {RateFrom.SINCE_FITTED: 1.56, RateFrom.BETWEEN: 2.83}

CASES = (
    Case(
        "grown-back",
        WATCH,
        again({C.LINK: (50, 62)}, before({C.LINK: (70, 60)})),
        again({C.LINK: (72, 62)}, before({C.LINK: (70, 60)})),
        ("inspected-before-at-hours", "then-and-now"),
        ("left link",),
        "Left links read less worn than at an earlier inspection",
    ),
    Case(
        "grown-back",
        WATCH,
        again({C.BOTTOM_ROLLER: ([60, 20], [60, 62])}, before({C.BOTTOM_ROLLER: ([50, 52], [50, 52])})),
        again(
            {C.BOTTOM_ROLLER: ([60, 20], [60, 62])},
            before({C.BOTTOM_ROLLER: ([50, 52], [50, 52])}),
            fitted={ROLLER: fitted(4300.0)},
        ),
        ("inspected-before-at-hours", "then-and-now"),
        ("left bottom roller 2",),
        "Left bottom roller 2 reads less worn than at an earlier inspection",
        name="but not one that was renewed",
    ),
    Case(
        "grown-back",
        WATCH,
        again({C.PITCH: (20, 52)}, before({C.PITCH: (50, 50)}), fitted={C.BUSHING: fitted(3000.0)}),
        again({C.PITCH: (20, 52)}, before({C.PITCH: (50, 50)}), fitted={C.BUSHING: fitted(3000.0, turned_at=4500.0)}),
        ("inspected-before-at-hours", "then-and-now"),
        ("left pitch",),
        "Left pitch reads less worn than at an earlier inspection",
        name="but not where the bushings were turned",
    ),
    Case(
        "grown-back",
        WATCH,
        again({C.SHOE: (20, 52)}, before({C.SHOE: (50, 50)})),
        again({C.SHOE: (20, 52)}, before({C.SHOE: (50, 50)}), saw=[saw("left shoe", S.RE_GROUSERED, G.MARKED)]),
        ("inspected-before-at-hours", "then-and-now"),
        ("left shoe",),
        "Left shoes read less worn than at an earlier inspection",
        name="but not re-grousered shoes",
    ),
    Case(
        "grown-back",
        WATCH,
        again({C.LINK: (50, 62)}, before({C.LINK: (70, 60)}, hours=None), hours=None),
        again({C.LINK: (50, 62)}, before({C.LINK: (70, 60)}, hours=None), hours=None, fitted={C.LINK: fitted(4300.0)}),
        ("inspected-before", "then-and-now"),
        ("left link",),
        "Left links read less worn than at an earlier inspection",
        name="hours unknown, but not where it may have been renewed",
    ),
    Case(
        "grown-back",
        WATCH,
        again(
            {C.BOTTOM_ROLLER: ([20, 21, 22, 23], [70, 70, 70, 70])},
            before(
                {C.BOTTOM_ROLLER: ([60, 61, 62, 60], [60, 60, 60, 60])},
                named=OLDER | {"inspector": Inspector("Tom Ashe")},
            ),
        ),
        again(
            {C.BOTTOM_ROLLER: ([70, 71, 72, 73], [70, 70, 70, 70])},
            before({C.BOTTOM_ROLLER: ([60, 61, 62, 60], [60, 60, 60, 60])}),
        ),
        ("inspected-before-at-hours", "other-inspector", "then-and-now-together"),
        ("left bottom roller 1", "left bottom roller 2", "left bottom roller 3", "left bottom roller 4"),
        "Left bottom rollers 1 to 4 read less worn than at an earlier inspection",
        name="a whole set, by two people",
    ),
    Case(
        "grown-back",
        WATCH,
        again(
            {C.LINK: (58, 62), C.SPROCKET: (20, 52)},
            before({C.LINK: (72, 50)}, hours=3000.0, named=OLDEST),
            before({C.LINK: (55, 60), C.SPROCKET: (50, 50)}),
        ),
        again(
            {C.LINK: (58, 62), C.SPROCKET: (52, 52)},
            before({C.LINK: (52, 50)}, hours=3000.0, named=OLDEST),
            before({C.LINK: (55, 60), C.SPROCKET: (50, 50)}),
        ),
        ("inspected-before-at-hours", "then-and-now", "inspected-before-at-hours", "then-and-now"),
        ("left link", "left sprocket"),
        "Left links and sprocket read less worn than at an earlier inspection",
        name="two older inspections, each told once",
    ),
    Case(
        "grown-back",
        WATCH,
        again(
            {C.FRONT_IDLER: ({P.INNER_TREAD: 40, P.OUTER_TREAD: 30}, None)},
            before({C.FRONT_IDLER: ({P.INNER_TREAD: 55, P.OUTER_TREAD: 60}, None)}),
        ),
        again(
            {C.FRONT_IDLER: ({P.INNER_TREAD: 60}, None)},
            before({C.FRONT_IDLER: ({P.INNER_TREAD: 55, P.OUTER_TREAD: 60}, None)}),
        ),
        ("inspected-before-at-hours", "then-and-now"),
        ("left front idler", "left front idler outer tread"),
        "Left front idler reads less worn than at an earlier inspection",
        name="told at the place that disagrees most, and only where both were there",
    ),
    Case(
        "jumped",
        WATCH,
        again({C.LINK: (90, 62)}, before({C.LINK: (70, 60)}, hours=4750.0)),
        again({C.LINK: (90, 62)}, before({C.LINK: (70, 60)}, hours=4650.0)),
        ("inspected-before-at-hours", "then-and-now"),
        ("left link",),
        "Left links read far more worn than a short while before",
    ),
    Case(
        "jumped",
        WATCH,
        again({C.LINK: (90, 62)}, before({C.LINK: (70, 60)}, hours=None, named=SHORTLY_BEFORE)),
        again({C.LINK: (90, 62)}, before({C.LINK: (70, 60)}, hours=None)),
        ("inspected-before", "then-and-now"),
        ("left link",),
        "Left links read far more worn than a short while before",
        name="by the days between, where hours are unknown",
    ),
    Case(
        "wears-faster-lately",
        WATCH,
        Walk(
            {C.LINK: (60, 60)},
            forecast=(
                ahead(C.LINK, Side.LEFT, 900, rate_from=RateFrom.BETWEEN, rates=LATELY, over=752.0),
                ahead(C.LINK, Side.RIGHT, 900, rates=LATELY),
            ),
        ),
        Walk({C.LINK: (60, 60)}, forecast=(ahead(C.LINK, Side.LEFT, 900, rates=LATELY),)),
        ("faster-lately",),
        ("left link",),
        "Left links wear faster than they did",
    ),
    Case(
        "wears-faster-lately",
        WATCH,
        Walk(
            {C.SPROCKET: (60, 60)},
            forecast=(
                ahead(C.SPROCKET, Side.LEFT, 900, rate_from=RateFrom.BETWEEN, rates=LATELY, hardening_ignored=True),
            ),
        ),
        Walk(
            {C.SPROCKET: (60, 60)},
            forecast=(
                ahead(
                    C.SPROCKET, Side.LEFT, 900, rate_from=RateFrom.BETWEEN, rates=LATELY | {RateFrom.SINCE_FITTED: None}
                ),
            ),
        ),
        ("faster-lately",),
        ("left sprocket",),
        "Left sprocket wears faster than it did",
        advice="wears-faster-lately-perhaps-soft",
        name="perhaps past a case; but not where nothing is known of before",
    ),
    Case(
        "wears-faster-lately",
        WATCH,
        Walk({C.PITCH: (60, 60)}, forecast=(ahead(C.PITCH, Side.LEFT, 900, rate_from=RateFrom.BETWEEN, rates=LATELY),)),
        Walk(
            {C.PITCH: (60, 60)},
            [saw("left pin", S.DRY_JOINT, G.MARKED)],
            forecast=(ahead(C.PITCH, Side.LEFT, 900, rate_from=RateFrom.BETWEEN, rates=LATELY),),
        ),
        ("faster-lately",),
        ("left pitch",),
        "Left pitch wears faster than it did",
        name="but not where a dry joint tells why",
    ),
    Case(
        "wears-faster-lately",
        WATCH,
        Walk({C.LINK: (99, 60)}, forecast=(ahead(C.LINK, Side.LEFT, 10, rate_from=RateFrom.BETWEEN, rates=LATELY),)),
        Walk({C.LINK: (101, 60)}, forecast=(ahead(C.LINK, Side.LEFT, 0, rate_from=RateFrom.BETWEEN, rates=LATELY),)),
        ("faster-lately",),
        ("left link",),
        "Left links wear faster than they did",
        name="but not past the limit",
    ),
)
