"""One inspection of several, read so that the faults of one do not keep the others from being read."""

from pathlib import Path
from typing import TYPE_CHECKING

from tracksworn.cli.exits import Exit, exit_for, say
from tracksworn.inspection.faults import Failed, Faulty

if TYPE_CHECKING:
    from tracksworn.inspection.dossier import Dossier


def read_or_say(inspection: Path) -> "Dossier | Exit":
    """The inspection with all that it names, its warnings said; or the exit status for what was said to be wrong."""
    from tracksworn.inspection.reading import read_inspection

    try:
        dossier = read_inspection(inspection)
    except (Faulty, Failed) as error:
        return exit_for(error)
    for warning in dossier.warnings:
        say(str(warning))
    return dossier
