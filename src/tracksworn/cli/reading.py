"""One inspection of several, read so that the faults of one do not keep the others from being read."""

from pathlib import Path
from typing import TYPE_CHECKING

from tracksworn.cli.exits import Exit, exit_for, say
from tracksworn.inspection.faults import Failed, Faulty

if TYPE_CHECKING:
    from tracksworn.documents.render.own.templates import OwnTemplates
    from tracksworn.inspection.dossier import Dossier


def read_own(folder: Path | None) -> "OwnTemplates | None":
    """A firm's own templates, where a folder of them is given. Raises Faulty for what is wrong in them."""
    if folder is None:
        return None
    from tracksworn.documents.render.own.folder import read_templates

    return read_templates(folder)


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
