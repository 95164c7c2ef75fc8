"""The long example of the file format as values: a dozer measured with four gauges, with parts by eye and unseen."""

from dataclasses import replace
from datetime import date
from pathlib import PurePosixPath

from builders import about, at_least, by_eye, chart, gauge, inspection, machine, reading, sizes, unseen, wears

from tracksworn.inspection.chart import Case, ChartComponent, WearChart
from tracksworn.inspection.letterhead import Assumed
from tracksworn.inspection.model import Fitting, Hours, Inspection, JointTemperatures, Observation, Spot
from tracksworn.inspection.prices import Price, Prices, Work
from tracksworn.inspection.terms import Rule, Terms, Undecided
from tracksworn.inspection.values import PerSide, Sizes, Temperatures
from tracksworn.inspection.vocabulary import (
    Component,
    Evidence,
    Grade,
    Impact,
    LimitMeans,
    PartPlace,
    Side,
    Sign,
    Suspension,
    Track,
    Unit,
)

FIRM = Assumed(inspector=1.4, seat=0.8, basis="repeat study RS-4, 2030")

CHART: WearChart = chart(
    wears(
        Component.LINK,
        143.0,
        128.0,
        limit_means=LimitMeans.REBUILD,
        destroyed=124.0,
        tolerance=0.3,
        spread=0.4,
        case=Case(60.0, 3.0),
        share=0.24,
    ),
    wears(
        Component.BUSHING,
        84.0,
        76.5,
        limit_means=LimitMeans.TURN,
        places=(PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE, PartPlace.RIGHT_ANGLES),
        table=((84.0, 0.0), (82.0, 20.0), (79.5, 55.0), (76.5, 100.0)),
        turns=1,
        share=0.16,
    ),
    wears(Component.PITCH, 864.0, 876.0, over_links=4, share=0.0),
    wears(Component.BOTTOM_ROLLER, 256.0, 210.0, ends=(264.0, 214.0), limit_means=LimitMeans.REBUILD, share=0.22),
    wears(Component.SPROCKET, measure="tooth base thickness", share=0.10),
    wears(Component.TOP_ROLLER, 190.0, 160.0, limit_means=LimitMeans.REBUILD, share=0.03),
    ChartComponent(Component.ADJUSTER, measure="rod showing", start=40.0, end=140.0),
    ChartComponent(Component.SAG, measure="straightedge, mean of both spans", range=(55.0, 75.0)),
)

_JOINTS = (3, 13, 23, 33)

INSPECTION: Inspection = inspection(
    reading(
        Component.LINK, (131.2, 131.0, 130.8, 131.4), (133.1, 133.0, 132.6, 133.2), gauge="depth gauge", joints=_JOINTS
    ),
    reading(
        Component.BUSHING,
        {PartPlace.FORWARD_SIDE: sizes(80.1, 80.3, 79.9), PartPlace.REVERSE_SIDE: sizes(81.2, 81.0, 81.4)},
        by_eye(30, 50),
        gauge="caliper",
    ),
    reading(Component.PITCH, (867.0, 868.0), (866.0, 866.0), gauge="steel tape"),
    reading(
        Component.BOTTOM_ROLLER,
        (252.0, 244.5, None, 246.1, 247.0, 245.2, 244.8, 243.9),
        {1: 242.4, 8: by_eye(30, 50), "others": unseen("guards fitted")},
        gauge="caliper",
    ),
    reading(Component.SPROCKET, about(50), at_least(50)),
    reading(Component.TOP_ROLLER, Sizes(((6 + 15 / 16) * 25.4,), Unit.INCH), unseen("packed with clay")),
    reading(Component.ADJUSTER, 92.0, 55.0),
    reading(Component.SAG, 66.0, 58.0, stopped="coasting forward", packed=False),
    machine=machine(
        links=45,
        year=2024,
        hours=Hours(8412.0),
        hours_per_week=35.0,
        suspension=Suspension.SUSPENDED,
        track=Track.SEALED_AND_LUBRICATED,
        bottom_rollers=8,
        top_rollers=1,
        impact=Impact.LOW,
    ),
    instruments=(
        gauge(
            "depth gauge",
            resolution=0.05,
            accuracy=0.1,
            calibrated=date(2031, 1, 12),
            due=date(2032, 1, 12),
            certificate="DG-118",
        ),
        gauge("caliper", resolution=0.02, accuracy=0.05, calibrated=date(2031, 1, 12)),
        gauge("steel tape", resolution=1.0, accuracy=0.5),
        gauge("ultrasonic gauge", resolution=0.01, uncertainty=0.05, k=2.0, velocity="5920 m/s"),
    ),
    observations=(
        Observation(
            Spot(Component.BOTTOM_ROLLER, Side.LEFT, 3),
            (Sign.LEAK,),
            Grade.SLIGHT,
            size=1.2,
            photos=(PurePosixPath("photos/roller-l3.jpg"),),
        ),
    ),
    fitted={
        Component.LINK: Fitting(5210.0, Evidence.INVOICE),
        Component.BUSHING: Fitting(5210.0, Evidence.INVOICE, turned_at=7100.0),
        Component.FRONT_IDLER: Fitting(original=True),
    },
    joint_temperatures=JointTemperatures(
        PerSide[Temperatures | None](Temperatures((31.0, 33.0, 58.0, 32.0)), Temperatures((30.0, 31.0, 31.0, 32.0))),
        PerSide[tuple[int, ...] | None](_JOINTS, _JOINTS),
        ambient=18.0,
    ),
)

EARLIER: Inspection = replace(
    inspection(
        reading(
            Component.LINK,
            (134.95, 134.70, 134.60, 134.90),
            (136.05, 135.95, 135.70, 136.10),
            gauge="depth gauge",
            joints=_JOINTS,
        ),
        reading(Component.BOTTOM_ROLLER, {8: 246.7}, {1: 245.2}, gauge="caliper"),
        machine=replace(INSPECTION.machine, hours=Hours(7660.0)),
        instruments=(
            gauge("depth gauge", resolution=0.05, accuracy=0.1, calibrated=date(2030, 1, 14)),
            gauge("caliper", resolution=0.02, accuracy=0.05, calibrated=date(2030, 1, 14)),
        ),
    ),
    number="MPS-2030-0377",
    inspected=date(2030, 11, 20),
)
"""Invented, so that the left link wears 1.56 points of even wear in 100 h from then to the long example.

The rollers were read then too, so that they come in the bushings' visit, which is then apart from the links'.
"""

TERMS = Terms(
    title="Lantern Plan, undercarriage cover",
    rule=Rule.GUARDED,
    allowed={
        None: ((0.0, 10.0), (4000.0, 80.0)),
        Component.BUSHING: ((0.0, 10.0), (2500.0, 60.0), (4000.0, 90.0)),
    },
    undecided=Undecided.MEASURE_AGAIN,
    hours_within=20.0,
)

PRICES = Prices(
    as_of=date(2031, 3, 1),
    currency="EUR",
    labour_per_hour=95.0,
    visit_set_up=1800.0,
    track_off=6.0,
    components={
        Component.LINK: {
            Work.REPLACE: Price(11800.0, 14.0),
            Work.REBUILD: Price(5200.0, 18.0, from_percent=40.0, until_percent=100.0),
        },
        Component.BUSHING: {
            Work.REPLACE: Price(4100.0, 16.0),
            Work.TURN: Price(600.0, 12.0, until_percent=100.0),
        },
        Component.BOTTOM_ROLLER: {
            Work.REPLACE: Price(420.0, 1.5),
            Work.SWAP_POSITIONS: Price(labour=2.0, until_percent=80.0),
        },
    },
    together=((Component.LINK, Component.SPROCKET),),
)
