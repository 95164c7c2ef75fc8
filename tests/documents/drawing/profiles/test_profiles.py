"""Wear profiles of every component in every state."""

from dataclasses import replace

import pytest
from documents.drawing.sheets import (
    assert_sound,
    by_eye,
    filled,
    gauges,
    has_stage_ink,
    hatching,
    measured,
    not_seen,
    points,
    strokes,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, box

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.inks import STAGE_INKS
from tracksworn.documents.drawing.lettering import box_of
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.profiles.draw import draw_profile
from tracksworn.documents.drawing.profiles.key import AS_NEW, BY_EYE, DESTROYED, LIMIT, NOW
from tracksworn.documents.drawing.profiles.labels import LEADER
from tracksworn.documents.drawing.profiles.profile import (
    USUAL_MEASURES,
    Measure,
    Profile,
    ProfileWords,
    Size,
    Worn,
    usual_measure,
)
from tracksworn.inspection.vocabulary import Component, PartPlace, ShoeKind

WORDS = ProfileWords(
    as_new="as new",
    now="now",
    limit="limit",
    destroyed="destroyed",
    typical="typical section, not to scale",
    pin="pin",
    tread="tread",
    flange="flange",
    middle="middle of the roller",
    bushing="bushing",
    cords="cords",
)
IDLERS = (Component.FRONT_IDLER, Component.REAR_IDLER)
PLACES = {
    Component.BUSHING: (PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE, PartPlace.RIGHT_ANGLES),
    Component.SPROCKET: (PartPlace.FORWARD_FACE, PartPlace.REVERSE_FACE),
    Component.FRONT_IDLER: (PartPlace.OUTER_TREAD, PartPlace.INNER_TREAD),
    Component.REAR_IDLER: (PartPlace.OUTER_TREAD, PartPlace.INNER_TREAD),
}
SIZES = {
    Component.LINK: (143.0, 128.0),
    Component.BUSHING: (84.0, 76.5),
    Component.PITCH: (864.0, 876.0),
    Component.SHOE: (78.0, 32.0),
    Component.LUG: (42.0, 14.0),
    Component.DRIVE_LUG: (38.0, 23.0),
    Component.SPROCKET: (50.0, 36.0),
    Component.FRONT_IDLER: (720.0, 690.0),
    Component.REAR_IDLER: (720.0, 690.0),
    Component.BOTTOM_ROLLER: (256.0, 210.0),
    Component.TOP_ROLLER: (190.0, 166.0),
}
EVERY = st.sampled_from(sorted(USUAL_MEASURES))
SECTIONS = [component for component in USUAL_MEASURES if component is not Component.PITCH]


def size(mm: float) -> Size:
    return Size(mm, f"{mm:.1f}")


def profile(component: Component, *gauges: Gauge, sized: bool = True) -> Profile:
    """With sizes of a middling machine; a measured gauge has the size that its percent asks for."""
    new, limit = SIZES[component]
    now = tuple(
        Worn(
            gauge,
            size(new + (limit - new) * (gauge.percent or 0.0) / 100) if gauge.basis is Basis.MEASURED else None,
            word,
        )
        for gauge, word in zip(gauges, ("left", "right") if len(gauges) > 1 else ("",), strict=True)
        if gauge.percent is not None or gauge.basis is not Basis.MEASURED
    )
    return Profile(
        component, "Title", "left", "section", now, WORDS, "said",
        new=size(new) if sized else None, limit=size(limit) if sized else None,
    )  # fmt: skip


@st.composite
def profiles(draw: st.DrawFn) -> Profile:
    """Any component, huge or tiny, growing or shrinking, measured one way or another, with or without a chart."""
    component = draw(EVERY)
    new = 10 ** draw(st.floats(0.3, 3.2))
    measure = draw(st.sampled_from([None, None, *Measure]))
    grows = component is Component.PITCH or measure in (Measure.DEPTH, Measure.GAP) or draw(st.integers(0, 9)) == 0
    limit = new * (1 + draw(st.floats(0.005, 0.5))) if grows else new * (1 - draw(st.floats(0.01, 0.7)))
    sized = draw(st.booleans() | st.just(True))
    places = PLACES.get(component, ())
    words = [place.split(" ")[0] for place in places] or ["left", "right"]
    now = []
    for index in range(draw(st.integers(1, len(words)))):
        gauge = draw(gauges())
        reading = gauge.basis is Basis.MEASURED and gauge.percent is not None
        mm = max(new + (limit - new) * (gauge.percent or 0.0) / 100, 0.01 * new)
        gone = draw(st.sampled_from(["", f"{words[index]}, 4.8 gone"])) if places else ""
        place = places[index] if places else None
        now.append(Worn(gauge, Size(mm, f"{mm:.2f}") if reading else None, words[index], gone=gone, place=place))
    past = limit + 0.2 * (limit - new)
    return Profile(
        component=component,
        title=draw(st.sampled_from(["Link rail", "Roller tread and flange, of a rather long title"])),
        about=draw(st.sampled_from(["", "left bottom roller 3, single flange"])),
        section="section at the joint",
        now=tuple(now),
        words=WORDS,
        alternative="said",
        new=Size(new, f"{new:.2f}") if sized else None,
        limit=Size(limit, f"{limit:.2f}") if sized else None,
        destroyed=Size(past, f"{past:.2f}") if sized and past > 0 and draw(st.booleans()) else None,
        measure=measure,
        notes=draw(st.sampled_from([(), ("left: 3.1 mm to the limit", "right: 80.2, 45 %")])),
        shoe=draw(st.sampled_from([None, *ShoeKind])),
        flanges=draw(st.sampled_from([None, 1, 2])),
        segment=draw(st.booleans()),
        above_root=draw(st.sampled_from([None, Size(0.3 * new, "12")])),
        over_links=draw(st.integers(1, 6)),
        width=draw(st.sampled_from([87.0, 92.0, 95.0])),
    )


def leaders_through_type(drawing: Drawing) -> list[str]:
    boxes = [(text.content, box_of(text)) for text in drawing.texts]
    areas = [(content, box(one.left, one.top, one.right, one.bottom).buffer(-0.1)) for content, one in boxes]
    leaders = [LineString(line.points) for line in strokes(drawing, LEADER)]
    return [content for content, area in areas if any(leader.intersects(area) for leader in leaders)]


@settings(max_examples=30, deadline=None)
@given(profiles())
def test_any_profile_is_sound_and_cheap(one: Profile) -> None:
    drawing = draw_profile(one)
    assert_sound(drawing)
    assert leaders_through_type(drawing) == []
    assert len(drawing.paths) <= 18
    assert drawing.width == one.width
    assert drawing.alternative == "said"


@pytest.mark.parametrize("component", USUAL_MEASURES)
def test_measured_says_new_now_and_limit(component: Component) -> None:
    drawing = draw_profile(profile(component, measured(62.0)))
    said = " ".join(text.content for text in drawing.texts)
    new, limit = SIZES[component]
    for mm in (new, limit, new + (limit - new) * 0.62):
        assert f"{mm:.1f}" in said
    assert "1\u00a0:\u00a0" in said
    boldest = max(text.size for text in drawing.texts if f"{new + (limit - new) * 0.62:.1f}" in text.content)
    assert boldest >= max(text.size for text in drawing.texts if f"{limit:.1f}" in text.content)


@pytest.mark.parametrize("component", SECTIONS)
def test_new_now_and_limit_are_three_lines(component: Component) -> None:
    drawing = draw_profile(profile(component, measured(62.0)))
    assert all(strokes(drawing, pen) for pen in (AS_NEW, NOW, LIMIT))
    assert hatching(drawing)
    assert filled(drawing, STAGE_INKS[Stage.SECOND_HALF])


@pytest.mark.parametrize("component", SECTIONS)
def test_hatching_grows_and_solid_shrinks_with_wear(component: Component) -> None:
    def lengths(percent: float) -> float:
        lines = hatching(draw_profile(profile(component, measured(percent))))
        return sum(float(LineString(line.points).length) for line in lines)

    assert lengths(20.0) < lengths(35.0) < lengths(49.0)


@pytest.mark.parametrize("component", SECTIONS)
def test_past_the_limit_is_crossed(component: Component) -> None:
    def slopes(percent: float) -> int:
        lines = [line.points for line in hatching(draw_profile(profile(component, measured(percent))))]
        return len({(a[0] - b[0]) * (a[1] - b[1]) > 0 for a, b in lines})

    assert slopes(97.0) == 1
    assert slopes(108.0) == 2


@pytest.mark.parametrize("component", USUAL_MEASURES)
@pytest.mark.parametrize("sized", [True, False])
def test_by_eye_has_no_edge_only_its_range(component: Component, sized: bool) -> None:
    drawing = draw_profile(profile(component, by_eye(40, 60), sized=sized))
    assert not has_stage_ink(drawing)
    assert any("40–60" in text.content for text in drawing.texts)
    if component is not Component.PITCH:
        assert "by eye" in [text.content for text in drawing.texts]
        assert len(strokes(drawing, BY_EYE)) >= 3  # both ends, and the key


@pytest.mark.parametrize("component", USUAL_MEASURES)
def test_without_sizes_the_section_is_typical_and_says_so(component: Component) -> None:
    drawing = draw_profile(profile(component, by_eye(40, 60), sized=False))
    said = [text.content for text in drawing.texts]
    assert WORDS.typical in said
    assert not any("\u00a0:\u00a0" in one for one in said)


@pytest.mark.parametrize("component", USUAL_MEASURES)
def test_not_seen_has_no_stage_ink_and_says_why(component: Component) -> None:
    drawing = draw_profile(profile(component, not_seen("mud")))
    assert not has_stage_ink(drawing)
    assert strokes(drawing, NOW) == []
    assert any("not seen" in text.content for text in drawing.texts)


@pytest.mark.parametrize("component", SECTIONS)
def test_what_may_fail_is_dotted(component: Component) -> None:
    new, limit = SIZES[component]
    with_it = replace(profile(component, measured(62.0)), destroyed=size(limit + 0.2 * (limit - new)))
    assert len(strokes(draw_profile(with_it), DESTROYED)) >= 2  # in the section and in the key
    assert strokes(draw_profile(profile(component, measured(62.0))), DESTROYED) == []


@pytest.mark.parametrize("component", [Component.LINK, Component.SHOE])
def test_both_sides_stand_beside_each_other(component: Component) -> None:
    drawing = draw_profile(profile(component, measured(79.0), measured(40.0)))
    inks = [filled(drawing, STAGE_INKS[stage]) for stage in (Stage.SECOND_HALF, Stage.FIRST_HALF)]
    left, right = ([x for line in lines for x, _ in line.points] for lines in inks)
    assert max(left) < min(right)


@pytest.mark.parametrize("component", [Component.LUG, Component.DRIVE_LUG, Component.TOP_ROLLER])
def test_where_there_is_room_for_one_the_worse_is_drawn(component: Component) -> None:
    drawing = draw_profile(profile(component, measured(20.0), measured(70.0)))
    assert filled(drawing, STAGE_INKS[Stage.SECOND_HALF])
    assert not filled(drawing, STAGE_INKS[Stage.FIRST_HALF])
    assert {"left", "right"} <= {text.content for text in drawing.texts}


def test_each_tread_of_an_idler_is_in_its_own_stage() -> None:
    outer, inner = (
        Worn(measured(percent), size(720 - 0.3 * percent), word, place=place)
        for percent, word, place in ((40.0, "outer", PartPlace.OUTER_TREAD), (105.0, "inner", PartPlace.INNER_TREAD))
    )
    drawing = draw_profile(replace(profile(Component.FRONT_IDLER, measured(40.0)), now=(outer, inner)))
    worn = [path for path in drawing.paths if path.stroke and path.stroke.colour == STAGE_INKS[Stage.PAST_LIMIT]]
    kept = [path for path in drawing.paths if path.stroke and path.stroke.colour == STAGE_INKS[Stage.FIRST_HALF]]
    assert max(x for path in kept for x, _ in points(path)) < min(x for path in worn for x, _ in points(path))


@pytest.mark.parametrize("component", SECTIONS)
def test_better_than_new_has_nothing_hatched(component: Component) -> None:
    drawing = draw_profile(profile(component, measured(-12.0)))
    assert hatching(drawing) == []
    assert filled(drawing, STAGE_INKS[Stage.FIRST_HALF])


def test_a_size_without_a_chart_is_dimensioned_on_a_typical_section() -> None:
    worn = Worn(Gauge(Basis.MEASURED, "–"), size(206.8))
    drawing = draw_profile(replace(profile(Component.BOTTOM_ROLLER, measured(50.0), sized=False), now=(worn,)))
    said = [text.content for text in drawing.texts]
    assert any("206.8" in one and one.startswith("Ø") for one in said)
    assert WORDS.typical in said
    assert "as new" not in said
    assert not has_stage_ink(drawing)


def test_a_drawing_is_as_high_as_what_is_drawn() -> None:
    rim, tooth = (profile(one, measured(50.0)) for one in (Component.FRONT_IDLER, Component.SPROCKET))
    assert draw_profile(rim).height < draw_profile(tooth).height - 8 < rim.height - 8


def test_a_side_that_is_not_drawn_has_no_line_in_the_key() -> None:
    one = replace(profile(Component.SHOE, measured(20.0), measured(30.0)), about="", shoe=ShoeKind.TRIPLE_GROUSER)
    said = [text.content for text in draw_profile(one).texts]
    assert "left" not in said
    assert " ".join(said).count("not drawn") == 1


def test_long_notes_make_the_drawing_higher() -> None:
    short = profile(Component.LINK, measured(50.0))
    long = replace(short, notes=("a sentence of many words that goes on and on " * 6,))
    assert draw_profile(short).height < short.height < draw_profile(long).height
    assert_sound(draw_profile(long))


def test_the_scale_is_true() -> None:
    """Common practice, no source: a length on the sheet times the scale is that of the part."""
    drawing = draw_profile(profile(Component.TOP_ROLLER, measured(50.0)))
    (said,) = [text.content for text in drawing.texts if text.content.startswith("section, ")]
    scale = float(said.split("\u00a0")[-1])
    solid = [y for line in filled(drawing, STAGE_INKS[Stage.SECOND_HALF]) for _, y in line.points]
    half_of_half = (190.0 - 166.0) / 2 / 2  # half the wear, on the radius
    assert max(solid) - min(solid) == pytest.approx(half_of_half / scale, rel=0.1)


def test_pitch_stands_on_its_ruler_in_the_printed_unit() -> None:
    base = profile(Component.PITCH, measured(40.0))
    inches = replace(
        base,
        new=Size(762.0, "30.000"),
        limit=Size(777.875, "30.625"),
        now=(replace(base.now[0], size=Size(768.35, "30.250")),),
        unit_mm=25.4,
        section="chain {scale}, ruler {ruler}",
    )
    said = [text.content for text in draw_profile(inches).texts]
    assert {"30.0", "30.2", "30.4", "30.6"} <= set(said)
    assert any(one.startswith("chain 1\u00a0:\u00a0") and "ruler" in one and "{" not in one for one in said)


@pytest.mark.parametrize(
    ("component", "described", "grows", "new", "measure"),
    [
        (Component.FRONT_IDLER, "tread diameter", False, 720.0, Measure.DIAMETER),
        (Component.FRONT_IDLER, "tread to top of flange", True, 20.0, Measure.DEPTH),
        (Component.BUSHING, "wall, by ultrasonic gauge", False, 14.0, Measure.WALL),
        (Component.BUSHING, "outside diameter by caliper, or wall by ultrasonic gauge", False, 59.3, Measure.DIAMETER),
        (Component.BUSHING, "outside diameter by caliper, or wall by ultrasonic gauge", False, 11.2, Measure.WALL),
        (Component.SPROCKET, "between two teeth", True, 58.0, Measure.GAP),
        (Component.SPROCKET, "tooth base thickness", False, 50.0, Measure.THICKNESS),
        (Component.DRIVE_LUG, "height", False, 60.0, Measure.HEIGHT),
        (Component.LINK, "", False, 143.0, Measure.HEIGHT),
    ],
)
def test_a_description_says_what_a_size_runs_across(
    component: Component, described: str, grows: bool, new: float, measure: Measure
) -> None:
    assert usual_measure(component, described, grows=grows, new=new) is measure


def test_what_has_gone_of_a_bushing_stands_under_its_ring_and_leaves_it_its_size() -> None:
    """A ring of 84 mm that was read at two sides is drawn no smaller than 1 : 3.1."""
    one = profile(Component.BUSHING, measured(60.0), measured(40.0))
    sides = (PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE)
    now = [
        replace(worn, place=place, word=word, gone=f"{word}, 4.9 gone")
        for worn, place, word in zip(one.now, sides, ("forward", "reverse"), strict=True)
    ]
    drawing = draw_profile(replace(one, now=tuple(now)))
    (scale,) = [text.content for text in drawing.texts if text.content.startswith("section, ")]
    assert float(scale.rsplit("\u00a0", 1)[1]) <= 3.1
    gone = {text.content: text.at for text in drawing.texts if text.content.endswith("gone")}
    assert gone["forward, 4.9 gone"][1] == gone["reverse, 4.9 gone"][1]
    assert leaders_through_type(drawing) == []
