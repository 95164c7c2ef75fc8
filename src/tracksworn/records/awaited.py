"""What pyHanko does asynchronously, waited for, wherever the caller runs."""

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

T = TypeVar("T")


def awaited(work: Coroutine[Any, Any, T]) -> T:
    """What comes of it. In a thread that runs an event loop already (a web page, a notebook) another thread does it."""
    try:
        asyncio.get_running_loop()
    except RuntimeError:
        return asyncio.run(work)
    with ThreadPoolExecutor(1) as other:
        return other.submit(asyncio.run, work).result()
