"""Every slip is one that `check` tells of."""

from pathlib import Path

import pytest
from batch.sample.test_sample import all_files, written

from tracksworn.batch.sample.slips import SLIPS
from tracksworn.inspection.faults import Weight
from tracksworn.inspection.reading import check

COUNT = 24


@pytest.fixture(scope="module")
def sale(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return written(all_files(COUNT, 7), tmp_path_factory.mktemp("slips"))


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_is_told(sale: Path, name: str) -> None:
    files = sorted(sale.glob("SMP-*/inspection.yaml"))
    file, text = next((file, text) for file in files if SLIPS[name](text := file.read_text()) != text)
    file.write_text(SLIPS[name](text))
    told = check(file)
    file.write_text(text)
    assert any(fault.weight is Weight.FAULT for fault in told)
    assert check(file) == ()


def test_about_that_part_of_the_lots_has_a_slip() -> None:
    whole, faulty = all_files(50, 7), all_files(50, 7, faults=0.3)
    assert whole.keys() == faulty.keys()
    changed = {name for name in whole if whole[name] != faulty[name]}
    assert 8 <= len(changed) <= 24
    assert all(name.endswith("/inspection.yaml") and "-E" not in name for name in changed)
