"""Reports with 1, 10 and 40 photos of 48 megapixels: time and most memory as ratios to plain Pillow decoding the same.

Each figure is of a process of its own, once everything is imported.
"""

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[1]))

from drawn_photos import inspection_with, photo, taken

COUNTS = {"JPEG": (1, 10, 40), "PNG": (1, 10), "HEIC": (1, 10)}
BEFORE = """
from pathlib import Path
import pillow_heif, weasyprint
from PIL import Image
from tracksworn.documents.report import make_report
from tracksworn.inspection.reading import read_inspection
pillow_heif.register_heif_opener()
folder = Path(sys.argv[1])
"""
REFERENCE = "plain Pillow, decoding alone"
REPORT = "make_report(read_inspection(folder), formats=['{}'])"
JOBS = {
    REFERENCE: "for name in folder.joinpath('photos').iterdir(): Image.open(name).load()",
    "read and check": "read_inspection(folder)",
    "read, report as PDF": REPORT.format("pdf"),
    "read, report as HTML": REPORT.format("html"),
}


def table(form: str, count: int, room: Path) -> None:
    """Print one table; the reference comes first."""
    print(f"| {count} {form} of 48 megapixels | s | × plain | MiB at most | × plain |\n| --- | --- | --- | --- | --- |")
    folder = inspection_with(room, photo(form), count, form)
    costs = {name: taken(BEFORE, work, folder) for name, work in JOBS.items()}
    plain = costs[REFERENCE]
    for name, cost in costs.items():
        ratios = cost.seconds / plain.seconds, cost.mib / plain.mib
        print(f"| {name} | {cost.seconds:.2f} | {ratios[0]:.2f} | {cost.mib:.0f} | {ratios[1]:.2f} |")
    print(flush=True)


def main() -> None:
    """Print a table for each form and number."""
    with TemporaryDirectory() as room:
        for form, counts in COUNTS.items():
            for count in counts:
                table(form, count, Path(room))


if __name__ == "__main__":
    main()
