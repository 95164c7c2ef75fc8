"""All rules of a listing sheet in one drawing: their type keeps apart whatever the words."""

from documents.drawing.sheets import assert_sound, gauges, measured
from hypothesis import given, settings
from hypothesis import strategies as st

from tracksworn.documents.drawing.rules import HEAD, RuleRow, RuleSide, draw_rules

NAMES = (
    "Track links",
    "Bottom rollers, worst seen",
    "Galets inférieurs, le plus usé vu",
    "Rodillos superiores, peor visto",
)
NOTES = ("", "left past limit", "beide möglicherweise nahe der Grenze")
DIFFERENCES = ("left +12 ± 4", "none shown", "keine erkennbar", "gauche +112 ± 14")
INTERVALS = ("102 to 112", "−12 bis 24", "geschätzt", "")


@st.composite
def halves(draw: st.DrawFn) -> RuleSide | None:
    gauge = draw(st.none() | gauges())
    if gauge is None:
        return None
    figure = gauge.figure.replace("at least ", "≥").replace("at most ", "≤")
    interval = draw(st.sampled_from(INTERVALS)) if gauge.seen else ""
    return RuleSide(gauge, figure if gauge.seen else "", interval, (gauge.percent or 0.0) > 100)


rows = st.builds(
    RuleRow, st.sampled_from(NAMES), st.sampled_from(NOTES), halves(), halves(), st.sampled_from(DIFFERENCES),
    st.booleans(),
)  # fmt: skip


@settings(max_examples=40)
@given(st.lists(rows, min_size=1, max_size=10), st.sampled_from([5.7, 6.6, 9.2]))
def test_any_rules_are_sound(some: list[RuleRow], pitch: float) -> None:
    drawing = draw_rules(some, difference="difference", alternative="said", pitch=pitch)
    assert_sound(drawing)
    assert drawing.height >= HEAD + pitch * len(some)


def test_a_name_that_has_no_room_ends_in_an_ellipsis() -> None:
    half = RuleSide(measured(60), "60", "55 to 65")
    row = RuleRow("Galets inférieurs du côté de la roue folle", "left past limit", half, half, "none shown")
    said = [text.content for text in draw_rules([row], difference="", alternative="", pitch=6.0).texts]
    (name,) = [content for content in said if content.startswith("Galets")]
    assert name.endswith("…")
