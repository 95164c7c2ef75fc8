"""An empty archive with a clock that stands still."""

from pathlib import Path

import pytest
from archived import Clock

from tracksworn.records.archive.archive import Archive


@pytest.fixture
def archive(tmp_path: Path) -> Archive:
    return Archive.open(tmp_path / "archive", new=True, clock=Clock())
