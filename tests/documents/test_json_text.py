"""JSON as the libraries write it, whatever is to be written."""

import json
from typing import Any

import pytest
import rfc8785
from hypothesis import example, given
from hypothesis import strategies as st

from tracksworn.documents.json_text import canonical, indented
from tracksworn.inspection.vocabulary import Component

WHOLE = st.integers(-(2**53) + 1, 2**53 - 1)
FIGURES = st.floats(allow_nan=False, allow_infinity=False) | st.floats(-1e-3, 1e-3) | WHOLE.map(float)
SINGLE = st.none() | st.booleans() | WHOLE | FIGURES | st.text() | st.sampled_from(Component)
VALUES = st.recursive(SINGLE, lambda one: st.lists(one) | st.dictionaries(st.text(), one), max_leaves=30)
ODD = (-0.0, 0.0, 1e-4, 9e-5, 1e-6, 1e-7, 5e-324, 1e15, 1e16, 1e20, 1e21, 333333333.33333329, 100.0, -1.5)


@given(VALUES)
@example(list(ODD))
@example({"\ue000": 1, "\U00010000": 2, "a": 3})  # by UTF-16 and by code points in another order
def test_canonical_as_the_library_has_it(value: Any) -> None:
    assert canonical(value).encode("utf-8") == rfc8785.dumps(value)


@given(VALUES, st.integers(1, 3))
@example(list(ODD), 2)
@example({"a": [], "b": {}, "c": (), "d": (1, [2.5])}, 2)
def test_indented_as_the_library_has_it(value: Any, step: int) -> None:
    assert indented(value, step) == json.dumps(value, indent=step, ensure_ascii=False, allow_nan=False)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf")])
def test_what_is_not_finite_has_no_form(value: float) -> None:
    with pytest.raises(ValueError, match=r"not JSON compliant|Out of range"):
        indented({"a": [value]}, 2)
    with pytest.raises(ValueError, match="not representable"):
        canonical({"a": [value]})


def test_nor_has_a_number_beyond_what_a_double_holds_whole() -> None:
    with pytest.raises(ValueError, match="exceeds"):
        canonical([2**53])
