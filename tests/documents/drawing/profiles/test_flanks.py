"""Wear of a flank that the size of the part does not tell: side wear of an idler, reverse wear of a tooth."""

from dataclasses import replace

import pytest
from documents.drawing.profiles.test_profiles import profile, size
from documents.drawing.sheets import assert_sound, by_eye, measured, strokes
from shapely.geometry import LineString

from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.profiles.amounts import amounts
from tracksworn.documents.drawing.profiles.draw import draw_profile
from tracksworn.documents.drawing.profiles.forms import sections
from tracksworn.documents.drawing.profiles.key import BY_EYE, NOW
from tracksworn.documents.drawing.profiles.profile import Flank, Profile
from tracksworn.inspection.vocabulary import Component, PartPlace

FORWARD, REVERSE = PartPlace.FORWARD_FACE, PartPlace.REVERSE_FACE
LOSS = 7.0  # of the tooth that is half worn


def tooth(*flanks: Flank) -> Profile:
    return replace(profile(Component.SPROCKET, measured(50.0)), flanks=flanks)


def idler(flank: Flank | None) -> Profile:
    plain = profile(Component.FRONT_IDLER, measured(50.0))
    return plain if flank is None else replace(plain, flanks=(flank,))


def test_a_tooth_wears_at_each_flank_by_what_was_read_there() -> None:
    one = tooth(Flank("forward, 5.0 gone", size(5.0), FORWARD), Flank("reverse, 2.0 gone", size(2.0), REVERSE))
    section = sections(one, amounts(one))[0]
    assert section.span is not None
    new, now = ((section.span.start((loss, loss)), section.span.end((loss, loss))) for loss in (0.0, LOSS))
    assert now[0][0] - new[0][0] == pytest.approx(5.0)
    assert new[1][0] - now[1][0] == pytest.approx(2.0)


def test_flanks_not_measured_are_dashed() -> None:
    one = tooth(Flank("reverse: seen, not measured", None, REVERSE))
    assert strokes(draw_profile(one), BY_EYE)
    assert not strokes(draw_profile(tooth()), BY_EYE)


@pytest.mark.parametrize(("place", "at_right"), [(PartPlace.INNER_TREAD, True), (PartPlace.OUTER_TREAD, False)])
def test_side_wear_is_cut_from_the_guide_at_its_place(place: PartPlace, at_right: bool) -> None:
    one = idler(Flank("side wear, 3.0 gone", size(3.0), place))
    plain, section = sections(idler(None), amounts(one))[0], sections(one, amounts(one))[0]
    losses = tuple(15.0 for _ in section.faces)
    cut = plain.worn(losses).difference(section.worn(losses))
    left, low, right, high = cut.bounds
    assert cut.area == pytest.approx(3.0 * (high - low), rel=0.02)
    assert ((left + right) / 2 > (plain.bounds[0] + plain.bounds[2]) / 2) is at_right
    assert section.solid(losses).equals(plain.solid(losses))


def test_side_wear_without_a_place_stands_at_the_more_worn_tread() -> None:
    one = idler(Flank("side wear, 3.0 gone", size(3.0)))
    worn = [replace(one.now[0], gauge=measured(per), place=at)
            for per, at in ((60.0, PartPlace.OUTER_TREAD), (40.0, PartPlace.INNER_TREAD))]  # fmt: skip
    section = sections(replace(one, now=tuple(worn)), amounts(one))[0]
    assert section.marks[0].side == "left"


@pytest.mark.parametrize("gauge", [measured(50.0), by_eye(40, 60)])
def test_side_wear_not_measured_takes_nothing_and_is_dashed(gauge: Gauge) -> None:
    seen = replace(profile(Component.FRONT_IDLER, gauge), flanks=(Flank("side wear: seen, not measured"),))
    plain = replace(seen, flanks=())
    losses = tuple(15.0 for _ in range(2))
    assert sections(seen, amounts(seen))[0].worn(losses).equals(sections(plain, amounts(plain))[0].worn(losses))
    solid = [sum(LineString(line.points).length for line in strokes(draw_profile(one), NOW)) for one in (seen, plain)]
    assert solid[0] < solid[1]


def test_what_is_said_of_flanks_is_sound() -> None:
    for one in (
        tooth(Flank("forward, 5.0 gone", size(5.0), FORWARD), Flank("reverse, 2.0 gone", size(2.0), REVERSE)),
        tooth(Flank("reverse: seen, not measured", None, REVERSE)),
        idler(Flank("side wear, 3.0 gone", size(3.0))),
        idler(Flank("side wear: seen, not measured")),
    ):
        drawing = draw_profile(one)
        assert_sound(drawing)
        said = {text.content for text in drawing.texts}
        assert {flank.text for flank in one.flanks} <= said


def test_words_of_two_flanks_do_not_shrink_the_tooth() -> None:
    """Side by side above it, where longer languages have room for them."""

    def across(words: str) -> float:
        flanks = [Flank(f"{words}, {gone:.3f} gone", size(gone), at) for gone, at in ((5.0, FORWARD), (2.0, REVERSE))]
        drawing = draw_profile(tooth(*flanks))
        assert_sound(drawing)
        xs = [x for line in strokes(drawing, NOW) for x, _ in line.points]
        return max(xs) - min(xs)

    assert across("in reverse") == pytest.approx(across("fwd"))
