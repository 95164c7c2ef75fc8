"""What libraries say of damaged files, without what only a programmer knows."""

import pytest

from tracksworn.records.plainly import plainly

STREAM = "stream <_io.BytesIO object at 0x7f7cd7caecd0>"


@pytest.mark.parametrize(
    ("said", "plain"),
    [
        (f"{STREAM}: unable to find /Root dictionary", "unable to find /Root dictionary"),
        (f"{STREAM} (object 5 0, offset 123): stream inflate: bad", "object 5: stream inflate: bad"),
        (f"{STREAM} (object 5,0, offset 123): bad", "object 5: bad"),
        (f"{STREAM} (Name/Number tree node (object 7)): too many errors - giving up", "too many errors - giving up"),
        ("two\n lines.", "two lines"),
        ("x" * 300, "x" * 200),
        ("", "ValueError"),
    ],
)
def test_it_is_one_line_that_names_no_address(said: str, plain: str) -> None:
    assert plainly(ValueError(said)) == plain
