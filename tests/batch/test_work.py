"""A lot that cannot be made is told as what it is, and nothing is raised."""

import errno
import os
from pathlib import Path

import pytest
from sales import ORDER, write_sale

from tracksworn.batch import work
from tracksworn.inspection.faults import Failed
from tracksworn.inspection.sale_list import find_inspections


@pytest.mark.parametrize(
    ("error", "told"),
    [
        (Failed("the disk is gone"), "the disk is gone"),
        (OSError(errno.EMFILE, os.strerror(errno.EMFILE)), "the machine refuses: Too many open files"),
        (MemoryError(), "the machine has no memory left for this"),
        (
            ZeroDivisionError("x"),
            "tracksworn itself has a fault (ZeroDivisionError: x). Nothing was half written. Please report it.",
        ),
    ],
)
def test_what_keeps_a_lot_from_being_made_is_a_failure_of_that_lot(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: Exception, told: str
) -> None:
    def refuse(_: Path) -> None:
        raise error

    monkeypatch.setattr(work, "read_inspection", refuse)
    (listed,) = find_inspections(write_sale(tmp_path / "sale", 1))
    made = work.make_lot(listed, ORDER)
    assert (made.files, made.faults) == ({}, ())
    assert made.failures == (f"{listed.inspection}: {told}",)
