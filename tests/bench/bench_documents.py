"""Full report and listing sheet against two page engines that are given the HTML of the same document.

Warm: every round is another machine; the process, and the browser, have made documents before. Cold: a fresh process
from start to end. Drawings stand in the HTML as SVG, photos and fonts as data.
"""

import argparse
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from bench.invented import BASE, DEMO, dossier
from bench.turns import rounds, table
from playwright.sync_api import Browser, sync_playwright
from weasyprint import CSS, HTML

from tracksworn.documents.render.files import Sheet
from tracksworn.documents.report import make_report
from tracksworn.inspection.reading import read_inspection

Jobs = Mapping[str, Callable[[], object]]
DOCUMENTS = (Sheet.LISTING, Sheet.FULL)
OURS = "tracksworn"
PLAIN = "plain WeasyPrint"
BARE = "the bare engine, one line"
MEND = ".pins { float: none !important }"
"""WeasyPrint 70 fails on a float within a grid; nothing else is changed for it."""
BROWSERS = {"Chromium": "chromium", "its headless shell": "chromium-headless-shell"}
"""The whole browser, and the one without windows; by the names of their programs."""
ARGUMENTS = ("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync")
ENGINE = f"from weasyprint import CSS, HTML; HTML(%r).write_pdf(%r, stylesheets=[CSS(string={MEND!r})])"


def page_of(seed: int, document: Sheet, room: Path) -> Path:
    """The document's HTML as a file."""
    (page,) = make_report(dossier(seed), formats=["html"], document=document).values()
    return _written(room / f"{document}-{seed}.html", page)


def _written(file: Path, content: bytes) -> Path:
    file.write_bytes(content)
    return file


def warm(document: Sheet, browsers: Mapping[str, Browser], room: Path) -> Callable[[int], Jobs]:
    """The jobs of a round. What each begins with is made before the clock runs."""

    def jobs(seed: int) -> Jobs:
        page, of = page_of(seed, document, room), dossier(seed)
        return {
            PLAIN: lambda: HTML(page).write_pdf(stylesheets=[CSS(string=MEND)]),
            **{name: partial(printed, one, page) for name, one in browsers.items()},
            OURS: lambda: make_report(of, formats=["pdf"], document=document),
        }

    return jobs


def printed(browser: Browser, page: Path) -> bytes:
    """The page as Chromium prints it, tagged."""
    tab = browser.new_page()
    tab.goto(page.as_uri())
    content = tab.pdf(prefer_css_page_size=True, print_background=True, tagged=True)
    tab.close()
    return content


def cold(document: Sheet, room: Path) -> Callable[[int], Jobs]:
    """The jobs of a round, each a fresh process from files to a file."""
    (content,) = make_report(
        read_inspection(DEMO / BASE / "inspection.yaml"), formats=["html"], document=document
    ).values()
    page, line = _written(room / "page.html", content), _written(room / "line.html", b"<p>One line</p>")
    out = str(room / "out.pdf")
    tracksworn = str(Path(sys.executable).with_name("tracksworn"))
    commands = {
        BARE: [sys.executable, "-c", ENGINE % (str(line), out)],
        PLAIN: [sys.executable, "-c", ENGINE % (str(page), out)],
        **{name: _printing(program, room, page, out) for name, program in BROWSERS.items()},
        OURS: [tracksworn, "report", str(DEMO / BASE), "--document", document, "--format", "pdf", "--to", str(room)],
    }
    # compiled code may be kept, as it is where the program is installed
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}

    def run(command: list[str]) -> None:
        subprocess.run(command, check=True, capture_output=True, env=environment)

    return lambda _: {name: lambda command=command: run(command) for name, command in commands.items()}  # type: ignore[misc]


def _printing(program: str, room: Path, page: Path, out: str) -> list[str]:
    profile = f"--user-data-dir={room / program}"
    return [_found(program), *ARGUMENTS, profile, f"--print-to-pdf={out}", page.as_uri()]


def _found(program: str) -> str:
    return shutil.which(program) or sys.exit(f"{program} is not installed (Debian: {program})")


def main() -> None:
    """Print four tables: each document warm and cold."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--only", choices=("warm", "cold"))
    options = parser.parse_args()
    with TemporaryDirectory() as folder:
        if options.only != "cold":
            _print_warm(options.rounds, Path(folder))
        if options.only != "warm":
            for document in DOCUMENTS:
                done = rounds(cold(document, Path(folder)), options.rounds, 1)
                print(table(f"{document}, cold", done, (BARE, PLAIN, *BROWSERS)), flush=True)


def _print_warm(count: int, room: Path) -> None:
    with sync_playwright() as driver:
        browsers = {
            name: driver.chromium.launch(executable_path=_found(program), args=ARGUMENTS)
            for name, program in BROWSERS.items()
        }
        for document in DOCUMENTS:
            done = rounds(warm(document, browsers, room), count, 1)
            print(table(f"{document}, warm", done, (PLAIN, *BROWSERS)), flush=True)


if __name__ == "__main__":
    main()
