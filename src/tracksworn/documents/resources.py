"""Where templates and fonts lie, in a source tree and in an installed package alike."""

from pathlib import Path

import tracksworn

_PACKAGE = Path(tracksworn.__file__).parent


def templates() -> Path:
    """The folder of templates: inside an installed package, at the top of a source tree."""
    installed = _PACKAGE / "templates"
    return installed if installed.is_dir() else _PACKAGE.parents[1] / "templates"


def fonts() -> Path:
    """The folder of fonts that are shipped with the program."""
    return _PACKAGE / "documents" / "fonts"
