"""A made-up sale on the disk: all of it, or nothing."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Final

from tracksworn.batch.sample.sample import LIST
from tracksworn.documents.held_folders import clear_dead, held_folder
from tracksworn.documents.writing import write_together
from tracksworn.inspection.faults import Failed, WrongUse, printable

_BESIDE: Final = ".tracksworn-sample-"


def write_sample(to: Path, groups: Iterable[Mapping[str, bytes]]) -> None:
    """Write groups of files as they come, beside their place until all are there.

    Raises WrongUse where the folder has something in it, Failed where the machine refuses. A folder that is made here
    stands whole or not at all; one that was there, empty, may have a part of the lots after a kill.
    """
    place = to if to.is_dir() else to.parent
    try:
        place.mkdir(parents=True, exist_ok=True)
        clear_dead(place, _BESIDE)
        if place is to and any(to.iterdir()):
            raise WrongUse(f"{printable(to)} has something in it; name another folder, or empty that one")
        with held_folder(place, _BESIDE) as beside:
            for files in groups:
                write_together(beside / "sale", files, clearing=False)
            _put(beside / "sale", to)
    except (Failed, OSError) as error:
        raise Failed(f"cannot write to {printable(to)}: {_reason(error)}") from error


def _put(made: Path, to: Path) -> None:
    """Where a folder is there already, it stays the same one, and the list comes last."""
    if not to.is_dir():
        made.rename(to)
        return
    for each in sorted(made.iterdir(), key=lambda each: each.name == LIST):
        each.rename(to / each.name)


def _reason(error: Exception) -> str:
    below = error.__cause__ if isinstance(error, Failed) else error
    return (below.strerror if isinstance(below, OSError) else None) or str(below or error)
