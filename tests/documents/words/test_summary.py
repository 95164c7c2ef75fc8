"""Words first: right and honest in every case, from all new to nothing seen."""

from dataclasses import replace

import pytest
from builders import about, at_least, at_most, by_eye, chart, inspection, machine, reading, unseen, wears
from long_example import CHART, FIRM, INSPECTION

from tracksworn.assessment.assess import assess
from tracksworn.documents.words.figures import NO_BREAK, Figures
from tracksworn.documents.words.summary import SummaryWords, summary
from tracksworn.documents.words.whole import WORN
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Inspection, Observation, Reading, Spot
from tracksworn.inspection.vocabulary import Component, Grade, Layout, Side, Sign, Track

LINK = wears(Component.LINK, 143.0, 128.0, share=0.5)
SHOE = wears(Component.SHOE, 78.0, 32.0, share=0.3)
IDLER = wears(Component.FRONT_IDLER, 720.0, 690.0, share=0.2)
ROLLER = wears(Component.BOTTOM_ROLLER, 256.0, 210.0, share=0.2)
ONE_CHART = chart(LINK, SHOE, IDLER)


def words(inspected: Inspection, wear_chart: WearChart | None = ONE_CHART) -> SummaryWords:
    said = summary(inspected, wear_chart, assess(inspected, wear_chart), Figures())
    return SummaryWords(
        said.headline.replace(NO_BREAK, " "), tuple(sentence.replace(NO_BREAK, " ") for sentence in said.sentences)
    )


def walk(*readings: Reading, **more: object) -> Inspection:
    return inspection(*readings, machine=machine(links=45), **more)  # type: ignore[arg-type]


def links(left: float, right: float) -> Reading:
    return reading(Component.LINK, (left, left, left, left), (right, right, right, right))


def shoes(left: float, right: float) -> Reading:
    return reading(Component.SHOE, (left, left, left, left), (right, right, right, right))


def idlers(left: float, right: float) -> Reading:
    return reading(Component.FRONT_IDLER, left, right)


def test_all_new() -> None:
    said = words(walk(links(142.8, 142.8), shoes(77.0, 77.2), idlers(719.0, 719.2)))
    assert said.headline == "Hardly worn."
    assert said.sentences == (
        "Most worn: left front idler, 3 % (−2 to 9), first half.",
        "No difference between the sides is shown in the 3 components that could be compared.",
    )


def test_uneven_and_not_past_the_limit() -> None:
    said = words(walk(links(131.0, 136.0), shoes(58.0, 58.0), idlers(704.0, 704.0)))
    assert said.headline == "About three fifths worn, and unevenly."
    assert said.sentences[1] == "The left side is more worn: links."


def test_one_part_past_the_limit() -> None:
    said = words(walk(links(126.0, 135.0), shoes(58.0, 58.0), idlers(704.0, 704.0)))
    assert said.headline == (
        "Left links are past their limit: replacement is due (finding 1). The whole is about three fifths worn."
    )
    assert not any("113" in sentence for sentence in said.sentences)


def test_past_the_limit_within_its_uncertainty() -> None:
    said = words(walk(links(127.9, 135.0), shoes(58.0, 58.0), idlers(704.0, 704.0)))
    assert said.headline.startswith("Left links are past their limit: measure again before anything is priced (")
    assert said.sentences[0] == "Left links: 101 % (94 to 107), past the limit, though the interval begins below it."


def test_past_the_limit_and_leaking_is_said_in_the_words_of_its_finding() -> None:
    leak = Observation(Spot(Component.BOTTOM_ROLLER, Side.LEFT, 2), (Sign.LEAK,), Grade.MARKED)
    rolling = inspection(
        reading(Component.BOTTOM_ROLLER, (230.0, 206.0), (230.0, 230.0)),
        machine=machine(bottom_rollers=2),
        observations=(leak,),
    )
    said = words(rolling, chart(ROLLER))
    assert said.headline.startswith(
        "Left bottom roller 2 is past its limit and loses oil: replace before the machine works again (finding 1)."
    )
    assert not any("loses oil" in sentence for sentence in said.sentences[1:])


def test_many_past_the_limit() -> None:
    rolling = inspection(
        reading(Component.BOTTOM_ROLLER, (205.0,) * 4, (204.0,) * 4), machine=machine(bottom_rollers=4)
    )
    said = words(rolling, chart(ROLLER))
    assert said.headline.endswith("The whole is near the end of its life, with several parts past their limit.")
    assert said.sentences[0].startswith("The worst: right bottom roller 1, 113 % (")


def test_several_near_the_limit_are_named() -> None:
    said = words(walk(links(130.0, 130.4), shoes(60.0, 60.0), idlers(704.0, 704.0)))
    assert (
        said.sentences[0]
        == "2 parts are near their limit: left and right links; the worst: left links, 87 % (80 to 93)."
    )


def test_by_eye_without_a_chart() -> None:
    seen = inspection(
        reading(Component.LINK, about(40), by_eye(40, 50)),
        reading(Component.SPROCKET, at_most(30), unseen()),
        machine=machine(Layout.EXCAVATOR, bottom_rollers=8, top_rollers=2),
    )
    said = words(seen, None)
    assert said.headline == "Only 31 % of the undercarriage by cost was seen; that part is about two fifths worn."
    assert said.sentences[0] == "There is no wear chart: every figure was judged by eye, nothing was measured."
    assert "Most worn: right links, 40 to 50 %, by eye, first half, possibly second half." in said.sentences
    assert said.sentences[-1].endswith("parts were not seen.")


def test_by_eye_with_a_chart() -> None:
    said = words(walk(*(reading(one, by_eye(40, 60), by_eye(40, 60)) for one in ONE_CHART.components)))
    assert said.sentences[0] == "Every figure was judged by eye, nothing was measured."


def test_at_least_is_never_said_as_a_figure() -> None:
    said = words(walk(*(reading(one, at_least(50), at_least(60)) for one in ONE_CHART.components)))
    assert said.headline == "At least 55 % worn."
    assert said.sentences[1] == "Most worn: right links, at least 60 %, by eye, second half or beyond."


def test_a_vague_whole_is_given_its_ends_and_no_word() -> None:
    said = words(walk(*(reading(one, by_eye(20, 80), by_eye(20, 80)) for one in ONE_CHART.components)))
    assert said.headline == "Somewhere from 20 to 80 % worn."


def test_sizes_without_a_chart_have_no_percent() -> None:
    said = words(walk(links(131.0, 132.0), reading(Component.SHOE, by_eye(20, 40), by_eye(20, 40))), None)
    assert said.sentences[0] == (
        "There is no wear chart: sizes stand without percent, and what has a percent was judged by eye."
    )


def test_nothing_but_a_crack_looked_for() -> None:
    looked = Observation(Spot(Component.LINK, Side.LEFT), (Sign.CRACK,), Grade.NONE)
    said = words(inspection(observations=[looked], machine=machine(Layout.EXCAVATOR)), None)
    assert said.headline == "No part could be given a figure of wear."
    assert said.sentences[0] == "There is no wear chart, and no wear was measured or judged."


def test_what_may_fail_is_told_among_many_past_their_limit() -> None:
    rails = wears(Component.LINK, 143.0, 128.0, destroyed=124.0)
    said = words(walk(links(123.0, 123.5), shoes(30.0, 30.0)), chart(rails, SHOE))
    assert said.headline.startswith("Left and right links may fail in use: stop and ask (finding 1).")
    assert said.sentences[0].startswith("4 parts are past their limit, the worst: left links, 133 % (")


def test_nothing_seen() -> None:
    seen = walk(*(reading(one, unseen("snow"), unseen("snow")) for one in ONE_CHART.components))
    said = words(seen)
    assert said.headline == "No part could be given a figure of wear."
    assert said.sentences == ("6 parts were not seen.",)


def test_a_chart_that_stands_in_is_said() -> None:
    said = words(walk(links(135.0, 135.0)), replace(ONE_CHART, stands_in_for="Hollin H-640D"))
    assert (
        said.sentences[0]
        == "The wear chart was made for another machine: take the percents of this Hollin H-640D as a guide."
    )


def test_few_unseen_parts_are_named() -> None:
    said = words(walk(links(135.0, 135.0), shoes(58.0, 58.0), reading(Component.FRONT_IDLER, 704.0, unseen("mud"))))
    assert said.sentences[-1] == "Not seen: right front idler."


def test_what_asks_for_action_first_stands_in_the_headline_and_there_alone() -> None:
    said = summary(INSPECTION, CHART, assess(INSPECTION, CHART, FIRM), Figures())
    assert said.headline == (
        "A dry joint in the left chain is likely: have it opened and resealed (finding 1). "
        "The whole is about three fifths worn."
    )
    assert not any("dry joint" in sentence for sentence in said.sentences)


def test_what_asks_for_action_first_comes_before_what_is_past_the_limit() -> None:
    cracks = [Observation(Spot(Component.SHOE, Side.LEFT, 3), (Sign.CRACK,), Grade.SLIGHT)]
    said = words(walk(links(126.0, 135.0), shoes(58.0, 58.0), idlers(704.0, 704.0), observations=cracks))
    assert said.headline == (
        "Left shoe 3 is cracked: stop and ask (finding 1). The whole is about three fifths worn, with one part past "
        "its limit."
    )
    assert said.sentences[0] == "Left links are past their limit, at 113 % (107 to 120)."


def test_what_asks_for_action_and_finds_no_room_is_counted() -> None:
    parts = (Component.SHOE, Component.LINK, Component.SPROCKET, Component.FRONT_IDLER, Component.BUSHING)
    cracks = [Observation(Spot(one, Side.LEFT, None), (Sign.CRACK,), Grade.SLIGHT) for one in parts]
    said = words(walk(links(135.0, 135.0), shoes(58.0, 58.0), idlers(704.0, 704.0), observations=cracks))
    assert said.headline == "Left shoes are cracked: stop and ask (finding 1). The whole is about half worn."
    assert "3 more findings ask for action now." in said.sentences


def test_the_chain_is_told_beside_a_part_that_is_worse() -> None:
    said = words(walk(links(134.0, 135.0), shoes(58.0, 58.0), idlers(692.0, 704.0)))
    assert said.sentences[:2] == (
        "Most worn: left front idler, 93 % (88 to 99), near limit.",
        "Most worn of links, bushings and pitch: left links, 60 % (54 to 66).",
    )


def test_a_rubber_track_is_called_so() -> None:
    rubber = chart(wears(Component.LUG, 20.0, 8.0), IDLER, layout=Layout.RUBBER)
    said = words(
        inspection(reading(Component.LUG, 12.0, 12.0), idlers(692.0, 704.0), machine=machine(Layout.RUBBER)), rubber
    )
    assert said.sentences[1].startswith("Most worn of the tracks: left lugs, 67 % (")


def test_a_young_chain_is_not_told() -> None:
    said = words(walk(links(142.0, 142.0), shoes(58.0, 58.0), idlers(692.0, 704.0)))
    assert not any("chains" in sentence for sentence in said.sentences)


def test_a_long_pitch_that_tells_of_a_dry_joint_is_no_difference_of_the_sides() -> None:
    pitch = wears(Component.PITCH, 864.0, 876.0, over_links=4, share=0.0)
    oiled = inspection(
        reading(Component.PITCH, (865.0, 865.0, 870.0), (865.0, 865.0, 865.0)),
        links(134.0, 134.0),
        machine=machine(links=45, track=Track.SEALED_AND_LUBRICATED),
    )
    said = words(oiled, chart(LINK, pitch))
    assert said.headline.startswith("A dry joint in the left chain is likely:")
    assert not any("side" in sentence for sentence in said.sentences)


@pytest.mark.parametrize("swapped", [False, True])
def test_the_side_named_is_the_side_more_worn(swapped: bool) -> None:
    left, right = (130.0, 136.0) if not swapped else (136.0, 130.0)
    said = words(walk(links(left, right), shoes(60.0, 60.0), idlers(704.0, 704.0)))
    assert any(
        sentence.startswith(f"The {'right' if swapped else 'left'} side is more worn") for sentence in said.sentences
    )


def test_a_part_that_was_not_made_for_its_place_is_called_so() -> None:
    wrong = Observation(Spot(Component.BOTTOM_ROLLER, Side.RIGHT, 1), (Sign.WRONG_PART,), Grade.MARKED)
    rolling = inspection(
        reading(Component.BOTTOM_ROLLER, (235.0,) * 2, (218.0, 235.0)),
        machine=machine(bottom_rollers=2),
        observations=(wrong,),
    )
    said = words(rolling, chart(ROLLER))
    assert said.headline == "About half worn."
    assert said.sentences[0].endswith("near limit, though it was not made for its place.")
    assert not any("side is more worn" in sentence for sentence in said.sentences)


@pytest.mark.parametrize(
    ("words", "fraction"),
    [
        ("a quarter", 25.0), ("a third", 100 / 3), ("two fifths", 40.0), ("half", 50.0), ("three fifths", 60.0),
        ("two thirds", 200 / 3), ("three quarters", 75.0), ("four fifths", 80.0),
    ],
)  # fmt: skip
def test_a_fraction_is_at_most_five_points_off_and_the_nearest(words: str, fraction: float) -> None:
    ends = [0.0, *(below for below, _ in WORN)]
    index = next(at for at, (_, said) in enumerate(WORN) if f"about {words} worn" in said)
    assert max(abs(ends[index] - fraction), abs(ends[index + 1] - fraction)) <= 5.0
    assert ends[index] <= fraction < ends[index + 1]


def test_a_full_summary_is_read_in_ten_seconds() -> None:
    said = summary(INSPECTION, CHART, assess(INSPECTION, CHART, FIRM), Figures())
    assert len(" ".join((said.headline, *said.sentences)).split()) <= 75
