"""A bare loop of WeasyPrint over finished pages, in so many processes: `bare_loop.py PROCESSES FOLDER OUT`."""

import sys
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

MEND = ".pins { float: none !important }"
"""WeasyPrint 70 fails on a float within a grid; nothing else is changed for it."""


def begin() -> None:
    """Import the engine, as a process of a batch does before its first lot."""
    import weasyprint  # noqa: F401


def write(page: Path, out: Path) -> None:
    """One page as PDF."""
    from weasyprint import CSS, HTML

    HTML(page).write_pdf(out / f"{page.stem}.pdf", stylesheets=[CSS(string=MEND)])


def main() -> None:
    """Every page of the folder, each by the process that is free next."""
    processes, folder, out = int(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3])
    out.mkdir(parents=True, exist_ok=True)
    with ProcessPoolExecutor(processes, mp_context=get_context("spawn"), initializer=begin) as pool:
        for written in [pool.submit(write, page, out) for page in sorted(folder.glob("*.html"))]:
            written.result()


if __name__ == "__main__":
    main()
