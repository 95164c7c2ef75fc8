"""One process that makes documents as it is asked, so that it can be timed beside other makers of PDF.

It reads lines `report SEED OUT` (a full report of six A4 sheets) or `sheet SEED OUT` (a listing sheet), makes the PDF
from values in memory by the whole way from assessment to gate, answers `done`, and ends at the end of its input.
"""

import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from bench.invented import dossier

from tracksworn.documents.render.files import Sheet
from tracksworn.documents.report import make_report

DOCUMENTS = {"report": Sheet.FULL, "sheet": Sheet.LISTING}


def main() -> None:
    """Answer every line."""
    for line in sys.stdin:
        document, seed, out = line.split(maxsplit=2)
        (content,) = make_report(dossier(int(seed)), formats=["pdf"], document=DOCUMENTS[document]).values()
        Path(out.strip()).write_bytes(content)
        print("done", flush=True)


if __name__ == "__main__":
    main()
