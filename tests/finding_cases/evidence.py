"""Charts, assumptions, evidence, what was not seen, and what is left over."""

from dataclasses import replace
from datetime import date

from builders import unseen
from finding_cases.case import NOTE, WATCH, Case
from finding_cases.walks import CHART, GAUGE, C, G, Pair, S, Walk, saw, with_entry

from tracksworn.inspection.chart import ImpactLimits
from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.model import FittedPart, Fitting, Hours
from tracksworn.inspection.vocabulary import Component, Evidence, Impact, Origin, Side

STAND_IN = replace(CHART, stands_in_for="Hollin H-90")
BY_IMPACT = with_entry(C.LINK, limit=ImpactLimits(low=100.0, high=120.0))
ROLLER = FittedPart(C.BOTTOM_ROLLER, Side.LEFT, 3)
FIRST_ROLLER = FittedPart(C.BOTTOM_ROLLER, Side.LEFT, 1)
OF_THE_CHART: dict[Component, Pair] = {
    component: (20, 20) for component in CHART.components if component not in (C.ADJUSTER, C.CUSHION, C.SAG)
}


def due(year: int) -> object:
    return replace(GAUGE, due=date(year, 4, 17))


CASES = (
    Case(
        "chart-stands-in",
        NOTE,
        Walk({C.LINK: (20, 20)}, chart=STAND_IN),
        Walk({C.LINK: (20, 20)}),
        ("chart-made-for-another",),
        ("chart",),
        "The wear chart was made for another machine",
    ),
    Case(
        "another-make",
        NOTE,
        Walk(fitted={C.LINK: Fitting(origin=Origin.ANOTHER_MAKE)}),
        Walk(fitted={C.LINK: Fitting(origin=Origin.ANOTHER_MAKE)}, chart=None),
        ("of-another-make",),
        ("link",),
        "Links are of another make than the chart's",
    ),
    Case(
        "adapted-part",
        WATCH,
        Walk(
            fitted={ROLLER: Fitting(origin=Origin.ADAPTED)}, saw=[saw("left bottom roller 3", S.WRONG_PART, G.MARKED)]
        ),
        Walk(fitted={ROLLER: Fitting(origin=Origin.MAKER)}, saw=[saw("left bottom roller 3", S.WRONG_PART, G.NONE)]),
        ("adapted", "seen-graded"),
        ("left bottom roller 3",),
        "Left bottom roller 3 was not made for its place",
    ),
    Case(
        "adapted-part",
        WATCH,
        Walk({C.BOTTOM_ROLLER: ([85, 30], [30, 30])}, fitted={FIRST_ROLLER: Fitting(origin=Origin.ADAPTED)}),
        Walk({C.BOTTOM_ROLLER: ([85, 30], [30, 30])}),
        ("adapted", "measured"),
        ("left bottom roller 1",),
        "Left bottom roller 1 was not made for its place",
        name="near its limit on a chart that is of another part",
    ),
    Case(
        "impact-decides",
        NOTE,
        Walk({C.LINK: (76, 20)}, chart=BY_IMPACT),
        Walk({C.LINK: (76, 20)}, chart=BY_IMPACT, machine={"impact": Impact.LOW}),
        ("on-the-other-limit",),
        ("left link",),
        "How hard it works decides how worn left links are",
    ),
    Case(
        "impact-decides",
        NOTE,
        Walk({C.LINK: (76, 20)}, chart=BY_IMPACT),
        Walk({C.LINK: (60, 20)}, chart=BY_IMPACT),
        ("on-the-other-limit",),
        ("left link",),
        "How hard it works decides how worn left links are",
        name="but not within one stage",
    ),
    Case(
        "assumed-decides",
        NOTE,
        Walk({C.FRONT_IDLER: (48, 20)}),
        Walk({C.FRONT_IDLER: (44, 20)}),
        ("stage-by-assumption",),
        ("left front idler",),
        "Assumed values alone make a further stage possible",
    ),
    Case(
        "assumed-decides",
        NOTE,
        Walk({C.FRONT_IDLER: (48, 20)}),
        Walk({C.FRONT_IDLER: (48, 20)}, firm=Assumed(inspector=2.0, basis="repeat study RS-4")),
        ("stage-by-assumption",),
        ("left front idler",),
        "Assumed values alone make a further stage possible",
        name="but not by the firm's own study",
    ),
    Case(
        "gauge-past-calibration",
        NOTE,
        Walk({C.LINK: (20, 20)}, gauge=due(2031)),
        Walk({C.LINK: (20, 20)}, gauge=due(2032)),
        ("gauge-was-due", "read-with-it"),
        ("left link", "right link"),
        "Caliper was past its calibration",
    ),
    Case(
        "hours-by-word",
        NOTE,
        Walk(
            machine={"hours": Hours(4000.0, Evidence.OWNERS_WORD)},
            fitted={C.LINK: Fitting(at=100.0, known_from=Evidence.OWNERS_WORD)},
        ),
        Walk(
            machine={"hours": Hours(4000.0, Evidence.METER)},
            fitted={C.LINK: Fitting(at=100.0, known_from=Evidence.INVOICE)},
        ),
        ("machine-hours-by-word", "fitted-by-word"),
        ("machine", "link"),
        "Hours rest on the owner's word",
    ),
    Case(
        "not-seen",
        NOTE,
        Walk({**OF_THE_CHART, C.LINK: (20, unseen("guard")), C.BOTTOM_ROLLER: ([20, 20], {1: 20})}),
        Walk(OF_THE_CHART),
        ("not-seen-because", "not-recorded", "share-seen"),
        ("right link", "right bottom roller 2"),
        "2 parts were not seen",
    ),
    Case(
        "seen-slight",
        NOTE,
        Walk(saw=[saw("left link 3", S.RAIL_SPALLING, G.SLIGHT), saw("left guard", S.BENT, G.SLIGHT)]),
        Walk(saw=[saw("left link 3", S.RAIL_SPALLING, G.MARKED), saw("left guard", S.BENT, G.NONE)]),
        ("seen-graded", "seen-graded"),
        ("left link 3", "left guard"),
        "Also seen",
    ),
    Case(
        "seen-ungraded",
        NOTE,
        Walk(saw=[saw("left guard", S.BENT)]),
        Walk(saw=[saw("left guard", S.BENT, G.SLIGHT)]),
        ("seen",),
        ("left guard",),
        "Also seen, not graded",
    ),
)
