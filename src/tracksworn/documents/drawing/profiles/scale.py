"""Scales of drawings: of two figures, as large as fits, and how they are written."""

from collections.abc import Iterator


def ratio(scale: float, decimal: str) -> str:
    """A scale as draughtsmen write it: `1 : 2.8`, `4 : 1`. `scale` is mm of sheet to one mm of the part."""
    enlarged = scale > 1
    figure = f"{round(scale if enlarged else 1 / scale, 3):g}".replace(".", decimal)
    return f"{figure}\u00a0:\u00a01" if enlarged else f"1\u00a0:\u00a0{figure}"


def scales() -> Iterator[float]:
    """All scales of two figures from 990 : 1 down, mm of sheet to one mm of part."""
    yield from (float(whole) for whole in range(990, 99, -10))
    yield from (float(whole) for whole in range(99, 9, -1))
    yield from (tenths / 10 for tenths in range(99, 10, -1))
    for power in range(5):
        yield from (1 / (tenths * 10.0 ** (power - 1)) for tenths in range(10, 100))


def fitting(length: float, room: float) -> float:
    """The largest scale at which a length of the part has room on the sheet."""
    return next(scale for scale in scales() if length * scale <= room)
