"""Lots of an invented sale in every state that a lot can be in, made without any inspection being assessed."""

from dataclasses import replace
from datetime import date, timedelta
from hashlib import sha256
from random import Random

from tracksworn.assessment.assumed import AnotherLook
from tracksworn.assessment.decisions import Result
from tracksworn.assessment.fleet import Look, in_order
from tracksworn.assessment.model import Bound
from tracksworn.assessment.stages import stage
from tracksworn.documents.sale.lot import (
    Act,
    DocumentFile,
    Entry,
    HoursLeft,
    Part,
    Read,
    SaleLot,
    Whole,
    Worst,
    faulty_lot,
    unmade_lot,
)
from tracksworn.inspection.vocabulary import Component, Evidence, Layout, Side

MACHINES = (
    ("Hollin", "H-640E", Layout.ELEVATED_SPROCKET),
    ("Hollin", "Drover 15", Layout.OVAL),
    ("Merrow", "Tarn 22", Layout.EXCAVATOR),
    ("Merrow", "Fell 19", Layout.TRACK_LOADER),
    ("Merrow", "Wren 4", Layout.RUBBER),
)
PARTS = (
    Part(Component.LINK, Side.LEFT, None),
    Part(Component.BUSHING, Side.RIGHT, None),
    Part(Component.SPROCKET, Side.RIGHT, None),
    Part(Component.BOTTOM_ROLLER, Side.LEFT, 3),
    Part(Component.TOP_ROLLER, Side.RIGHT, 1, alone=True),
)
ACTS = (
    Act("past-limit-and-leaking", "Left bottom roller 3 is past its limit and loses oil"),
    Act("dry-joint", "A dry joint in the left chain is likely"),
    Act("seized", "Right top roller 2 is seized"),
    Act("past-limit", "Left links are past their limit"),
)
FAULTS = (
    "lots/107/inspection.yaml:31:11: `92,5 mm` may be a decimal comma; write `92.5 mm`, or `92, 5 mm` for two readings",
    "lots/107/inspection.yaml:44:3: `buching` is no component; did you mean `bushing`?",
)
UNMADE = ("lots/133/inspection.yaml: no timestamp from the authority",)
LONG_MAKER = "Consolidated Crawler Works of the Upper Saltern"
LONG_MODEL = "Tarn 22 Long Reach Forestry with High and Wide Undercarriage"
LONG_SERIAL = "MRWT22LRFHWU0000000000020417000000000012345"


def many(count: int, seed: int = 1) -> tuple[SaleLot, ...]:
    """So many lots from 101 on, one in twenty-five with faults, one in twelve without a lot number."""
    rng = Random(seed)
    return tuple(lot(place, rng) for place in range(1, count + 1))


def lot(place: int, rng: Random) -> SaleLot:
    number = None if place % 12 == 7 else str(100 + place)
    entry = Entry(place, f"lots/{100 + place}/inspection.yaml")
    if place % 50 == 33:
        return unmade_lot(replace(entry, lot=number), UNMADE)
    if place % 25 == 8:
        return faulty_lot(replace(entry, lot=number), FAULTS)
    read = _read(place, rng)
    return SaleLot(
        entry=entry,
        lot=number,
        looks=_looks(read, rng),
        read=read,
        documents=tuple(
            DocumentFile(document, kind, f"{read.number}-r0-{document}.{kind}")
            for document, kind in (("listing", "pdf"), ("listing", "html"), ("full", "pdf"))
        ),
    )


def _read(place: int, rng: Random) -> Read:
    maker, model, layout = rng.choice(MACHINES)
    day = date(2031, 4, 7) + timedelta(days=rng.randrange(12))
    whole = _whole(place, rng)
    worst = min((whole.percent_worn or 30.0) + rng.expovariate(1 / 18), 118.0)
    return Read(
        number=f"OXB-{place:04d}",
        revision=0,
        maker=maker,
        model=model,
        year=None if place % 9 == 0 else 2015 + rng.randrange(14),
        serial=f"{maker[:3].upper()}{rng.randrange(10**9):09d}",
        layout=layout,
        hours=None if place % 17 == 0 else float(rng.randrange(300, 14_000)),
        hours_from=None if place % 17 == 0 else Evidence.OWNERS_WORD if place % 10 == 3 else Evidence.METER,
        inspected=day,
        issued=day + timedelta(days=1),
        inspector=rng.choice(("Ines Marlow", "Oda Fenn")),
        place="Oxbow Sale Yard, row 14",
        chart=None if whole.by_eye else f"{maker} {model}",
        letterhead="../letterheads/oxbow.yaml",
        language="en",
        method=1,
        fingerprint=sha256(str(place).encode()).hexdigest(),
        whole=replace(whole, past_limit=int(worst >= 100.0)),
        worst=None if whole.percent_worn is None else _worst(worst, rng, by_eye=whole.by_eye),
        hours_left=_hours_left(rng) if place % 3 else None,
        acts=ACTS[: rng.choice((0, 0, 0, 0, 1, 1, 2, 4))],
        terms="Lantern Plan, undercarriage cover" if place % 20 == 2 else None,
        verdict=Result.UNDECIDED if place % 20 == 2 else None,
    )


def _whole(place: int, rng: Random) -> Whole:
    by_eye, seen = place % 8 == 5, rng.choice((1.0, 0.97, 0.94, 0.88, 0.74, 0.5))
    percent = min(max(rng.gauss(52, 20), 2.0), 99.0)
    half = rng.uniform(9, 18) if by_eye else rng.uniform(1.5, 6.0)
    none, bound = place % 31 == 11, place % 29 == 12
    return Whole(
        percent_worn=None if none else percent,
        low=None if none else percent - half,
        high=None if none or bound else percent + half,
        bound=Bound.AT_LEAST if bound and not none else None,
        floor=0.0 if none else percent * seen,
        ceiling=100.0 if none else percent * seen + 100 * (1 - seen),
        stage=None if none else stage(percent),
        by_eye=by_eye and not none,
        seen_share=0.0 if none else seen,
        unseen=0 if seen == 1.0 else rng.randrange(1, 9),
        past_limit=0,
        near_limit=0,
    )


def _worst(percent: float, rng: Random, *, by_eye: bool) -> Worst:
    half = 10.0 if by_eye else 4.0
    return Worst(rng.choice(PARTS), percent, percent - half, percent + half, by_eye, stage(percent))


def _hours_left(rng: Random) -> HoursLeft:
    low = rng.uniform(20, 3000)
    high = None if rng.random() < 0.1 else low * rng.uniform(1.2, 1.9)
    return HoursLeft(
        part=rng.choice(PARTS),
        low=low,
        high=high,
        beaten=high is None and rng.random() < 0.5,
        without_worst=rng.random() < 0.2,
        by_word=rng.random() < 0.1,
        as_guide=rng.random() < 0.05,
    )


def _looks(read: Read, rng: Random) -> tuple[Look, ...]:
    when, whole = AnotherLook(), read.whole
    looks = [Look.ACT] if read.acts else []
    if whole.percent_worn is None:
        return in_order([*looks, Look.NO_FIGURE])
    worst = read.worst.percent_worn if read.worst else 0.0
    long = whole.high is None or whole.low is None or whole.high - whole.low >= when.wide
    looks += [Look.NEAR_LIMIT] if whole.percent_worn >= 80.0 else []
    looks += [Look.PART_PAST_LIMIT] if whole.past_limit else []
    looks += [Look.PART_NEAR_LIMIT] if worst >= 80.0 and not whole.past_limit else []
    looks += [Look.WORST_FAR_ABOVE] if worst >= 80.0 and worst - whole.percent_worn >= when.above else []
    looks += [Look.WIDE] if long else []
    looks += [Look.UNSEEN] if 1 - whole.seen_share >= when.unseen else []
    looks += [Look.NO_CHART] if read.chart is None else []
    looks += [Look.CONTRADICTION] if rng.random() < 0.03 else []
    return in_order(looks)


def with_long_names(lots: tuple[SaleLot, ...]) -> tuple[SaleLot, ...]:
    """The same lots, every name in them as long as one may be met."""
    return tuple(
        one
        if one.read is None
        else replace(
            one,
            lot=f"LOT-{one.entry.place:04d}-ABCDEFG" if one.lot else None,
            read=replace(
                one.read,
                maker=LONG_MAKER,
                model=LONG_MODEL,
                serial=LONG_SERIAL,
                number=f"MILLRACE-PLANT-SURVEY-2031-SPRING-{one.entry.place:05d}",
                inspector="Ines Marlow-Featherstonehaugh of the Upper Saltern",
            ),
        )
        for one in lots
    )
