"""Inspections for measuring: every seed is another machine with other words, figures, dimensions and photos.

So no cache can answer one by what it kept of another. All of it is values in memory, as if just read; the photos lie as
files outside the tree, drawn once, since drawing them would take longer than a report.
"""

import tempfile
from dataclasses import fields, replace
from functools import cache
from pathlib import Path, PurePosixPath
from random import Random
from typing import Any, Final

from PIL import Image

from tracksworn.inspection.chart import Geometry, WearChart
from tracksworn.inspection.dossier import Dossier, Picture
from tracksworn.inspection.model import Inspection, Observation, Photo, Reading
from tracksworn.inspection.reading import read_inspection
from tracksworn.inspection.values import ByPlace, ByPosition, PerSide, SideReading, Sizes
from tracksworn.inspection.vocabulary import Component, Sign

DEMO: Final = Path(__file__).resolve().parents[2] / "demo_inspections"
BASE: Final = "MPS-2029-0512"
PHOTOS: Final = 6
"""In each document that shows any."""
SETS: Final = 12
SIZE: Final = (1200, 800)
WORDS: Final = (*map(str, Component), *map(str, Sign))


def dossier(seed: int) -> Dossier:
    """A measured dozer with both sides, six photos and nothing before it; full reports fill six A4 sheets."""
    rng, base = Random(seed), _base()
    assert base.chart is not None
    names = [PurePosixPath(f"photos/{number}.jpg") for number in range(PHOTOS)]
    seen = _told(base.inspection, rng, seed, names)
    readings = {part: _read(one, rng) for part, one in seen.readings.items()}
    return replace(
        base,
        inspection=replace(seen, readings=readings),
        chart=_as_large_as(base.chart, rng),
        photos=dict(zip(names, photos(seed), strict=True)),
        digests={f"bench-{seed}/inspection.yaml": f"{seed:064x}"},
    )


@cache
def _base() -> Dossier:
    return read_inspection(DEMO / BASE / "inspection.yaml")


def _sentence(rng: Random, words: int) -> str:
    return " ".join(rng.choice(WORDS) for _ in range(words)).capitalize() + "."


def _told(seen: Inspection, rng: Random, seed: int, photo_files: list[PurePosixPath]) -> Inspection:
    """All that is told in words, in about as many of them as were there."""
    observations = tuple(_noted(one, rng) for one in seen.observations)
    with_photo = replace(observations[0], photos=(photo_files[0],))
    return replace(
        seen,
        number=f"BENCH-{seed:06}",
        place=_sentence(rng, 4),
        conditions=_sentence(rng, 8),
        limits_of_access=_sentence(rng, 8),
        notes="\n\n".join(_sentence(rng, 14) for _ in range(2)),
        machine=replace(seen.machine, serial=f"B{rng.randrange(10**8):08}"),
        observations=(with_photo, *observations[1:]),
        photos=tuple(Photo(file, caption=_sentence(rng, 4)) for file in photo_files[1:]),
    )


def _noted(one: Observation, rng: Random) -> Observation:
    return replace(one, note=_sentence(rng, 10)) if one.note else one


def _read(one: Reading, rng: Random) -> Reading:
    by = rng.uniform(0.9985, 1.0015)
    left, right = (_worn(side, by) if side is not None else None for side in (one.sides.left, one.sides.right))
    return replace(one, sides=PerSide[SideReading | None](left, right))


def _worn(value: Any, by: float) -> Any:
    """The same reading of a part worn a little otherwise, so little that it gives the same signs on as many sheets."""
    if isinstance(value, Sizes):
        return replace(value, values=tuple(size and round(size * by, 2) for size in value.values))
    if isinstance(value, ByPosition):
        return replace(value, entries={at: _worn(each, by) for at, each in value.entries.items()})
    if isinstance(value, ByPlace):
        return ByPlace({at: _worn(each, by) for at, each in value.entries.items()})
    return value


def _as_large_as(chart: WearChart, rng: Random) -> WearChart:
    """The chart with another undercarriage to draw, a little smaller or larger in all its lengths."""
    if chart.geometry is None:
        return chart
    by, geometry = rng.uniform(0.97, 1.03), chart.geometry
    lengths: dict[str, Any] = {one.name: getattr(geometry, one.name) for one in fields(geometry)}
    lengths |= {name: length * by for name, length in lengths.items() if isinstance(length, float)}
    lengths |= {name: tuple(at * by for at in row) for name, row in lengths.items() if isinstance(row, tuple)}
    return replace(chart, geometry=Geometry(**lengths))


def photos(seed: int) -> list[Picture]:
    """Six photos with as much detail as a camera's, about 250 kB each; those of twelve seeds differ."""
    return [_photo(seed % SETS, number) for number in range(PHOTOS)]


def _photo(of: int, number: int) -> Picture:
    file = Path(tempfile.gettempdir(), "tracksworn-bench", f"{of}-{number}.jpg")
    if not file.exists():
        file.parent.mkdir(exist_ok=True)
        waves = Image.radial_gradient("L").resize(SIZE).rotate(20 * (6 * of + number))
        bands = [Image.blend(waves, Image.effect_noise(SIZE, 60), 0.2 + 0.05 * band) for band in range(3)]
        beside = file.with_suffix(".part")
        Image.merge("RGB", bands).save(beside, "JPEG", quality=80)
        beside.replace(file)
    return Picture(file.read_bytes(), "image/jpeg", *SIZE)
