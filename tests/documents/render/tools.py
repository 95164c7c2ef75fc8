"""Independent tools that judge finished files. One that is not there is a failure, never a reason to skip."""

import re
import shutil
import subprocess
from pathlib import Path

from tracksworn.documents.full.view import FullReport

POPPLER = ("pdffonts", "pdftotext", "pdftoppm", "pdfinfo")


def tool(name: str) -> str:
    """Where a tool is."""
    found = shutil.which(name)
    assert found is not None, f"{name} is not installed (Debian: poppler-utils, qpdf)"
    return found


def run(*command: str | Path) -> str:
    """What a tool prints; its failure is the test's."""
    done = subprocess.run(
        [tool(str(command[0])), *map(str, command[1:])], capture_output=True, text=True, check=False, timeout=120
    )
    assert done.returncode == 0, f"{command}: {done.stdout}{done.stderr}"
    return done.stdout


def words_of_pdf(file: Path) -> str:
    """The text of all pages in the order in which it was written, so that cells of a table stay whole."""
    return run("pdftotext", "-raw", "-enc", "UTF-8", file, "-")


def squeezed(text: str) -> str:
    """Text without any blank."""
    return re.sub(r"\s+", "", text)


def numbers(text: str) -> set[str]:
    """Every number in a text, thousands joined."""
    joined = re.sub(r"(?<=\d)[\u202f\u00a0\u2009](?=\d{3})", "", text)
    return set(re.findall(r"\d+(?:\.\d+)?", joined))


def figures(report: FullReport) -> set[str]:
    """Every figure of a view that a page must carry."""
    said = {report.whole.figure, report.whole.interval, *(fact.value for fact in report.whole.facts)}
    for row in report.parts:
        said |= {row.delta.figure, row.delta.within, row.sizes}
        for side in filter(None, (row.left, row.right)):
            said |= {side.figure, side.interval, side.reading}
    said |= {side for one in report.readings for side in (one.left, one.right)} | {
        reason for one in report.findings for reason in one.reasons
    }
    if report.terms is not None:
        said |= {report.terms.verdict, report.terms.title, *report.terms.sentences, *report.terms.reasons}
        for against in (one for row in report.terms.rows for one in row.sides if one):
            said |= {against.figure, against.verdict, against.probability}
    return said - {""}
