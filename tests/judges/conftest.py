"""One veraPDF for all tests of a worker."""

from collections.abc import Iterator

import pytest
from judges.verapdf import VeraPdf


@pytest.fixture(scope="session")
def verapdf() -> Iterator[VeraPdf]:
    with VeraPdf() as judge:
        yield judge
