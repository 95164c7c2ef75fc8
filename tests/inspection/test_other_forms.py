"""Forms that the long examples do not use, each read to its value."""

from pathlib import Path
from typing import TypeVar

import pytest

from tracksworn.inspection.chart import Dimensions, ImpactLimits
from tracksworn.inspection.contrast import on_white
from tracksworn.inspection.file_types.base import FileType
from tracksworn.inspection.file_types.chart import ChartFile
from tracksworn.inspection.file_types.inspection import InspectionFile
from tracksworn.inspection.file_types.letterhead import LetterheadFile
from tracksworn.inspection.file_types.prices import PricesFile
from tracksworn.inspection.loading import load
from tracksworn.inspection.model import FittedPart, Fitting, Hours, Inspection, Spot
from tracksworn.inspection.prices import Price, Work
from tracksworn.inspection.values import ByEye, ByPlace, ByPosition, Estimate, NotSeen, PerSide, Sizes
from tracksworn.inspection.vocabulary import Between, Component, Evidence, Ground, PartPlace, Side, Sign
from tracksworn.inspection.written import FaultList

F = TypeVar("F", bound=FileType)

CHART = """\
tracksworn: wear chart 1
title: T
source: S
layout: oval
components:
  bushing:
    measure: outside diameter
"""
PRICES = """\
tracksworn: prices 1
as of: 2031-03-01
currency: USD
labour per hour: 95
visit set-up: 0
track off: 0
"""
ROLLERS = """\
  bottom roller:
    left:
      inner tread: 250, -, 252 mm
      outer tread: {1: 250 mm, others: not seen (mud)}
    right: by eye at most 30 %
"""


def loaded(text: str, file_type: type[F]) -> F:
    faults = FaultList(Path("file.yaml"))
    file = load(text.encode(), file_type, faults)
    assert faults.faults == []
    assert file is not None
    return file


def inspection(text: str) -> Inspection:
    return loaded(text, InspectionFile).inspection()


def bushing(text: str) -> Dimensions:
    dimensions = loaded(CHART + text, ChartFile).chart().components[Component.BUSHING].dimensions
    assert dimensions is not None
    return dimensions


def test_a_range_of_new_gives_size_and_tolerance() -> None:
    read = bushing("    new: 1.7580 to 1.7600 in\n    limit: 1.6 in\n    limit means: turn\n")
    assert read.new == pytest.approx(1.7590 * 25.4, abs=1e-12)
    assert read.tolerance == pytest.approx(0.0010 * 25.4, abs=1e-12)


def test_a_tolerance_goes_before_half_the_range() -> None:
    read = bushing("    new: 83 to 85 mm\n    limit: 76 mm\n    limit means: turn\n    tolerance: 0.2 mm\n")
    assert (read.new, read.tolerance) == (84.0, 0.2)


def test_a_limit_may_depend_on_impact() -> None:
    read = bushing("    new: 59 mm\n    limit: {low: 51.6 mm, high: 54.1 mm}\n    limit means: turn\n")
    assert read.limit == ImpactLimits(51.6, 54.1)


def test_table_rows_come_in_the_order_of_their_percent() -> None:
    read = bushing(
        "    new: 3 1/4 in\n    limit: 3 in\n    limit means: turn\n"
        "    table: {3 in: 100, 82.55 mm: 0, 3.1 in: 70}\n    reading between rows: monotone\n"
    )
    assert read.table == ((82.55, 0.0), (78.74, 70.0), (76.2, 100.0))
    assert read.between is Between.MONOTONE


def test_ways_have_sizes_of_their_own() -> None:
    text = (
        "    limit means: turn\n    ways:\n      caliper: {new: 84 mm, limit: 76 mm}\n"
        "      ultrasonic gauge: {new: 12 mm, limit: 8 mm, tolerance: 0.1 mm, table: {12 mm: 0, 8 mm: 100}}\n"
    )
    entry = loaded(CHART + text, ChartFile).chart().components[Component.BUSHING]
    assert entry.dimensions is None
    assert dict(entry.ways) == {
        "caliper": Dimensions(84.0, 76.0),
        "ultrasonic gauge": Dimensions(12.0, 8.0, tolerance=0.1, table=((12.0, 0.0), (8.0, 100.0))),
    }


def test_a_component_may_have_only_a_share() -> None:
    text = CHART.replace("    measure: outside diameter\n", "    share: 3\n")
    assert loaded(text, ChartFile).chart().components[Component.BUSHING].share == 3.0


def test_rollers_go_by_place_and_position(least: str) -> None:
    read = inspection(least.replace("layout: oval", "layout: oval, bottom rollers: 3") + ROLLERS)
    assert read.readings[Component.BOTTOM_ROLLER].sides == PerSide(
        ByPlace(
            {
                PartPlace.INNER_TREAD: Sizes((250.0, None, 252.0)),
                PartPlace.OUTER_TREAD: ByPosition({1: Sizes((250.0,))}, NotSeen("mud")),
            }
        ),
        ByEye(Estimate.AT_MOST, 30.0, 30.0),
    )


def test_gauge_and_joints_may_differ_by_side(least: str) -> None:
    read = inspection(
        least + "  link:\n    with: {left: caliper, right: depth gauge}\n    joints: {left: [3, 13], right: 5}\n"
        "    left: 131, 132 mm\n    right: 130 mm\n"
    )
    link = read.readings[Component.LINK]
    assert link.gauge == PerSide[str | None]("caliper", "depth gauge")
    assert link.joints == PerSide[tuple[int, ...] | None]((3, 13), (5,))


def test_a_gap_keeps_its_joint(least: str) -> None:
    read = inspection(least + "  link:\n    joints: 3, 13, 23\n    left: 131, -, 132 mm\n")
    assert read.readings[Component.LINK].sides.left == Sizes((131.0, None, 132.0))


def test_rod_showing_may_be_nought(least: str) -> None:
    read = inspection(least + "  adjuster: {left: 0 mm}\n")
    assert read.readings[Component.ADJUSTER].sides.left == Sizes((0.0,))


def test_end_play_may_be_nought(least: str) -> None:
    text = least.replace("readings:\n", "observations:\n  - {at: top roller, seen: [end play, leak], size: 0 mm}\n")
    (observation,) = inspection(text).observations
    assert (observation.seen, observation.size) == ((Sign.END_PLAY, Sign.LEAK), 0.0)


def test_hours_say_what_they_are_known_from(least: str) -> None:
    text = least.replace("oval", "oval, hours: {shown: 412, known from: owner's word, meter replaced at: 8000}")
    hours = inspection(text + "  link: {left: 131 mm}\n").machine.hours
    assert hours == Hours(412.0, Evidence.OWNERS_WORD, 8000.0)
    assert hours.machine == 8412.0


def test_what_was_fitted_may_be_unknown_original_or_never_turned(least: str) -> None:
    fitted = "fitted: {link: unknown, left shoe: original, bushing: {at: unknown, turned: no}}\n"
    assert inspection(least + "  link: {left: 131 mm}\n" + fitted).fitted == {
        FittedPart(Component.LINK): Fitting(),
        FittedPart(Component.SHOE, Side.LEFT): Fitting(original=True),
        FittedPart(Component.BUSHING): Fitting(not_turned=True),
    }


@pytest.mark.parametrize("ground", ["abrasive, wet", "[abrasive, wet]"])
def test_ground_is_words(least: str, ground: str) -> None:
    text = least.replace("{maker: Hollin, model: H, serial: S, layout: oval}", f"\n  maker: A\n  ground: {ground}")
    text = text.replace("  ground", "  model: B\n  serial: C\n  layout: oval\n  ground")
    assert inspection(text + "  link: {left: 131 mm}\n").machine.ground == (Ground.ABRASIVE, Ground.WET)


def test_words_that_yaml_takes_for_more_stay_words(least: str) -> None:
    text = (
        least.replace("number: A", "number: 1e3").replace("serial: S", "serial: no").replace("model: H", "model: 12:30")
    )
    read = inspection(text + "  link: {left: 131 mm}\nlot: 007\nplace: null\n")
    assert (read.number, read.lot, read.place) == ("1e3", "007", "null")
    assert (read.machine.serial, read.machine.model) == ("no", "12:30")


def test_a_photo_may_show_a_part(least: str) -> None:
    text = least + "  link: {left: 131 mm}\nphotos:\n  - {file: photos/a.jpg, shows: right link 3}\n"
    assert inspection(text).photos[0].shows == Spot(Component.LINK, Side.RIGHT, 3)


def test_letters_of_scripts_keep_their_joiners(least: str) -> None:
    name = "क्\u200dष"
    assert inspection(least.replace("Ines Marlow", name) + "  link: {left: 131 mm}\n").inspector.name == name


def test_other_ways_to_mend_have_prices() -> None:
    text = PRICES + "components: {bottom roller: {re-shell: {parts: 90}, swap sides: {labour: 3}}}\n"
    prices = loaded(text, PricesFile).prices()
    assert prices.components == {
        Component.BOTTOM_ROLLER: {Work.RE_SHELL: Price(90.0), Work.SWAP_SIDES: Price(0.0, 3.0)}
    }


def test_a_letterhead_needs_a_firm_and_a_signatory() -> None:
    read = loaded("tracksworn: letterhead 1\nfirm: F\nsignatory: {name: N}\n", LetterheadFile).letterhead()
    assert (read.paper, read.units, read.language, read.mark) == ("A4", "mm", "en", None)


@pytest.mark.parametrize(
    ("colour", "ratio"), [("#000000", 21.0), ("#ffffff", 1.0), ("#767676", 4.54), ("#FF0000", 4.0)]
)
def test_contrast_on_white(colour: str, ratio: float) -> None:
    """WCAG 2.2: black on white is 21 : 1 by its definition; the grey and the red are well-known values, from memory."""
    assert on_white(colour) == pytest.approx(ratio, abs=0.005)
