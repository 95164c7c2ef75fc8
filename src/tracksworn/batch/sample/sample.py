"""The whole sale: what its lots share, then lot after lot, then the list of them."""

import csv
from collections.abc import Iterator, Mapping
from io import StringIO
from typing import Final

from tracksworn.batch.sample.lot import has_terms, lot_file
from tracksworn.batch.sample.machine import sample_machine
from tracksworn.batch.sample.photos import drawn_photos
from tracksworn.batch.sample.shared import shared_files
from tracksworn.batch.sample.slips import slipped
from tracksworn.batch.sample.walk import Walk, walks
from tracksworn.inspection.reading import INSPECTION_NAME

LIST: Final = "lots.csv"


def sample(count: int, seed: int, *, photos: int = 0, faults: float = 0.0) -> Iterator[Mapping[str, bytes]]:
    """So many lots of an invented sale as files by path, in groups that belong together.

    First what all share, then each lot with the earlier inspections of its machine, last the list. The same count and
    seed give the same bytes on any machine; the lots of a smaller count are the first ones of a larger. Each lot has
    so many small drawn photos (the same bytes by the same release of Pillow). Of about that part of the lots,
    `faults`, the file has a slip as people make them.
    """
    yield shared_files()
    rows = []
    for number in range(1, count + 1):
        walk = walks(sample_machine(seed, number), f"SMP-{seed}-{number:04}")
        yield _lot(walk, number, photos, faults)
        rows.append(_row(walk, number))
    yield {LIST: _list(rows)}


def _lot(walk: Walk, number: int, photos: int, faults: float) -> Mapping[str, bytes]:
    pictures = drawn_photos(walk.machine, photos)
    text = lot_file(walk, None if _listed_only(walk) else str(number), tuple(pictures))
    dice = walk.machine.dice("slip")
    if dice.chance(faults):
        text = slipped(text, dice)
    return {
        **{f"{one.number}/{INSPECTION_NAME}": lot_file(one, None).encode() for one in walk.earlier},
        f"{walk.number}/{INSPECTION_NAME}": text.encode(),
        **{f"{walk.number}/{path}": content for path, content in pictures.items()},
    }


def _listed_only(walk: Walk) -> bool:
    """Whether the list alone knows the lot's number: it was inspected before the sale was numbered."""
    return walk.machine.dice("listed only").chance(0.1)


def _row(walk: Walk, number: int) -> tuple[str, str, str]:
    lot = str(number) if _listed_only(walk) else ""
    documents = "listing certificate" if has_terms(walk) else ""
    return f"{walk.number}/{INSPECTION_NAME}", lot, documents


def _list(rows: list[tuple[str, str, str]]) -> bytes:
    out = StringIO()
    csv.writer(out, lineterminator="\n").writerows([("inspection", "lot", "documents"), *rows])
    return out.getvalue().encode()
