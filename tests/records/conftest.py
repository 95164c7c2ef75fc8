"""What all tests of records share."""

import asyncio
from collections.abc import Iterator

import pytest


@pytest.fixture(autouse=True)
def no_browsers_loop() -> Iterator[None]:
    """A browser of other tests leaves its event loop running in this thread; no test here is to stand within it."""
    running = asyncio._get_running_loop()
    asyncio._set_running_loop(None)
    yield
    asyncio._set_running_loop(running)
