"""Waiting for what is asynchronous, also where the caller's own thread runs an event loop."""

import asyncio
import threading

import pytest

from tracksworn.records.awaited import awaited


async def _where() -> str:
    await asyncio.sleep(0)
    return threading.current_thread().name


async def _wrong() -> None:
    raise ValueError("wrong")


def test_it_is_done_here_where_no_loop_runs() -> None:
    assert awaited(_where()) == threading.current_thread().name


def test_it_is_done_elsewhere_where_one_runs() -> None:
    async def within() -> str:
        return awaited(_where())

    assert asyncio.run(within()) != threading.current_thread().name


def test_what_goes_wrong_comes_through_either_way() -> None:
    async def within() -> None:
        awaited(_wrong())

    with pytest.raises(ValueError, match="wrong"):
        awaited(_wrong())
    with pytest.raises(ValueError, match="wrong"):
        asyncio.run(within())
