"""How a part is named."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.inspection.model import FittedPart, Spot
from tracksworn.inspection.spots import NUMBERED, fitted_part, spot
from tracksworn.inspection.vocabulary import Component, ObservedPlace, PartPlace, Side
from tracksworn.inspection.written import Wrong

parts: st.SearchStrategy[Component | ObservedPlace] = st.sampled_from([*Component, *ObservedPlace])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("left bottom roller 3", Spot(Component.BOTTOM_ROLLER, Side.LEFT, 3)),
        ("left front idler inner tread", Spot(Component.FRONT_IDLER, Side.LEFT, None, PartPlace.INNER_TREAD)),
        ("bottom roller 3 outer tread", Spot(Component.BOTTOM_ROLLER, None, 3, PartPlace.OUTER_TREAD)),
        ("right adjuster seal", Spot(ObservedPlace.ADJUSTER_SEAL, Side.RIGHT)),
        ("right adjuster", Spot(Component.ADJUSTER, Side.RIGHT)),
        ("drive lug 12", Spot(Component.DRIVE_LUG, None, 12)),
        ("  left   shoe  bolt 31 ", Spot(ObservedPlace.SHOE_BOLT, Side.LEFT, 31)),
    ],
)
def test_a_spot_reads(text: str, expected: Spot) -> None:
    assert spot(text) == expected


@given(parts, st.sampled_from([None, *Side]), st.integers(1, 120), st.sampled_from([None, *PartPlace]))
def test_every_part_reads_as_it_is_written(
    part: Component | ObservedPlace, side: Side | None, number: int, place: PartPlace | None
) -> None:
    numbered = number if part in NUMBERED else None
    text = " ".join(str(word) for word in (side, part, numbered, place) if word is not None)
    assert spot(text) == Spot(part, side, numbered, place)


@pytest.mark.parametrize(
    "text",
    ["", "left", "left right link", "roller", "link left", "link 0", "link 1 2", "sprocket 5", "link inner", "Link"],
)
def test_what_names_no_part_is_refused(text: str) -> None:
    with pytest.raises(Wrong):
        spot(text)


def test_a_photo_may_show_a_side_alone() -> None:
    assert spot("left", side_alone=True) == Spot(None, Side.LEFT)


def test_what_was_fitted_is_a_component_one_side_of_it_or_one_roller() -> None:
    assert fitted_part("link") == FittedPart(Component.LINK)
    assert fitted_part("left link") == FittedPart(Component.LINK, Side.LEFT)
    assert fitted_part("left bottom roller 3") == FittedPart(Component.BOTTOM_ROLLER, Side.LEFT, 3)
    for text in ("bottom roller 3", "left link 3", "left pin", "left adjuster", "left link inner tread"):
        with pytest.raises(Wrong):
            fitted_part(text)
