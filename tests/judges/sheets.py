"""What is wrong with a PDF, in the words of judges that had no part in making it. One that is not there fails."""

import re
import subprocess
from pathlib import Path
from typing import Final

from documents.render.tools import run, tool
from judges.verapdf import ACCESSIBLE, ARCHIVABLE, VeraPdf

_SOUND: Final = "No syntax or stream encoding errors found"
_FONT: Final = re.compile(
    r"(?P<name>.*?)\s+(?P<embedded>yes|no)\s+(?P<subset>yes|no)\s+(?P<unicode>yes|no)\s+\d+\s+\d+$"
)

_WRONG: Final = {"not embedded": "embedded", "not a subset": "subset", "no way back to Unicode": "unicode"}


def faults(file: Path, verapdf: VeraPdf) -> list[str]:
    """Everything that any of them finds; none is what is wanted."""
    return [
        *of_standard(file, verapdf, ARCHIVABLE),
        *of_standard(file, verapdf, ACCESSIBLE),
        *of_form(file),
        *of_fonts(file),
    ]


def of_standard(file: Path, verapdf: VeraPdf, flavour: str) -> list[str]:
    """Rules of PDF/A or PDF/UA that it breaks, as veraPDF sees them."""
    return [f"{flavour} {rule}: {told}" for rule, told in verapdf.broken(file, flavour).items()]


def of_form(file: Path) -> list[str]:
    """Errors and warnings of qpdf, which ends with 2 or 3 then."""
    done = subprocess.run([tool("qpdf"), "--check", file], capture_output=True, text=True, check=False, timeout=60)
    said = done.stdout + done.stderr
    return [] if done.returncode == 0 and _SOUND in said else [f"qpdf: {said}"]


def of_fonts(file: Path) -> list[str]:
    """Fonts that are not embedded, or whole, or do not lead back to Unicode, as pdffonts lists them."""
    heading, _, *lines = run("pdffonts", file).splitlines()
    assert heading.split() == ["name", "type", "encoding", "emb", "sub", "uni", "object", "ID"]
    assert lines, "no fonts: no text"
    fonts = [_FONT.match(line) for line in lines]
    assert all(fonts), lines
    kept = [font for font in fonts if font]
    return [f"pdffonts: {wrong}: {font['name']}" for wrong, key in _WRONG.items() for font in kept if font[key] == "no"]
