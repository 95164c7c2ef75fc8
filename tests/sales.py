"""Small sales as files, and workers that make lots at once within the process, so that runs are quick to test."""

import os
import signal
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from hashlib import sha256
from io import BytesIO
from pathlib import Path

from PIL import Image

from tracksworn.batch.journal import Journal
from tracksworn.batch.order import Made, Order, entry_of, failed, faulty
from tracksworn.batch.places import Folder, Place
from tracksworn.batch.run import Batch, Taken
from tracksworn.documents.report import Assessed, assess_dossier
from tracksworn.documents.sale.assessed_lot import sale_lot
from tracksworn.documents.sale.lot import faulty_lot
from tracksworn.inspection.faults import Failed, Faulty
from tracksworn.inspection.reading import read_inspection
from tracksworn.inspection.sale_list import Listed, read_sale

INSPECTION = """\
tracksworn: inspection 1
number: {number}
inspected: 2031-05-02
lot: {lot}
inspector: {{name: Ines Marlow}}
machine: {{maker: Merrow, model: Tarn 22, serial: "20417", layout: excavator, bottom rollers: 8, top rollers: 2}}
chart: ../shared/chart.yaml
letterhead: ../shared/letterhead.yaml
readings:
  link: {{left: by eye about {worn} %, right: by eye 40 to 50 %}}
  sprocket: {{left: by eye at most 30 %, right: not seen (mud)}}
observations:
  - {{at: left front idler, seen: side wear, grade: slight, photos: [photos/a.jpg]}}
"""
CHART = """\
tracksworn: wear chart 1
title: Tarn 22, invented for tests
source: an invented table
layout: excavator
components:
  link: {measure: rail to boss, new: 100.0 mm, limit: 90.0 mm, limit means: rebuild}
"""
LETTERHEAD = """\
tracksworn: letterhead 1
firm: Millrace Plant Survey
signatory: {name: Ines Marlow}
mark: mark.svg
"""
MARK = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 8"><path d="M0 0H8V8Z"/></svg>\n'


def write_sale(folder: Path, count: int = 4) -> Path:
    """So many lots that share a chart and a letterhead with a mark, each with a photo of its own."""
    shared = folder / "shared"
    shared.mkdir(parents=True)
    (shared / "chart.yaml").write_text(CHART)
    (shared / "letterhead.yaml").write_text(LETTERHEAD)
    (shared / "mark.svg").write_text(MARK)
    for place in range(1, count + 1):
        write_lot(folder, place)
    return folder


def write_lot(folder: Path, place: int, **said: object) -> Path:
    """One of them; its inspection."""
    inspection = folder / f"lot-{place}" / "inspection.yaml"
    (inspection.parent / "photos").mkdir(parents=True, exist_ok=True)
    words = {"number": f"OXB-{place}", "lot": place, "worn": 30 + place, **said}
    inspection.write_text(INSPECTION.format(**words))
    (inspection.parent / "photos" / "a.jpg").write_bytes(photo(place))
    return inspection


def photo(shade: int) -> bytes:
    sheet = BytesIO()
    Image.new("RGB", (16, 12), (shade * 20 % 256, 90, 90)).save(sheet, "JPEG")
    return sheet.getvalue()


def made_at_once(listed: Listed, order: Order) -> Made:
    """A lot that was really read, with documents that only name what they follow from."""
    if listed.faults:
        return faulty(listed, listed.faults)
    try:
        dossier = read_inspection(listed.inspection).in_sale(listed.lot)
    except Faulty as error:
        return faulty(listed, error.faults)
    except Failed as error:
        return failed(listed, str(error))
    number = f"{dossier.inspection.number}-r{dossier.inspection.revision}"
    seen = sha256(repr([sorted((dossier.digests or {}).items()), dossier.lot, order.language]).encode()).hexdigest()
    names = [f"{number}-{one}.{form}" for one in order.documents_of(listed) for form in order.formats]
    files = {name: f"{name} {seen}\n".encode() * 50 for name in names}
    lot = sale_lot(entry_of(listed), Assessed(dossier, assess_dossier(dossier)), files)
    return Made(listed, lot, files, dossier.inputs, warnings=tuple(map(str, dossier.warnings)))


@dataclass
class AtOnce:
    """Workers within this process; `asked` are the names of the lots that they were given."""

    make: Callable[[Listed, Order], Made] = made_at_once
    asked: list[str] = field(default_factory=list)

    def made(self, lots: Iterable[Listed], order: Order) -> Iterator[Made]:
        for listed in lots:
            self.asked.append(listed.name.split("/")[0])
            yield self.make(listed, order)


ORDER = Order(("listing",), ("pdf",))


@dataclass
class Run:
    """What a run came to: the lots, what is left over, and which were made."""

    taken: Sequence[Taken]
    left_over: tuple[str, ...]
    asked: Sequence[str]

    @property
    def outcomes(self) -> list[str]:
        return [str(one.outcome) for one in self.taken]

    @property
    def told(self) -> list[str]:
        return [words for one in self.taken for words in one.told]


def run(sale: Path, place: Path | Place, order: Order = ORDER, program: str = "this one", **more: object) -> Run:
    """A run over a sale, as the command makes it but for the index."""
    workers = AtOnce(**({"make": more.pop("make")} if "make" in more else {}))  # type: ignore[arg-type]
    there = Folder(place) if isinstance(place, Path) else place
    base = sale if sale.is_dir() else sale.parent
    identity = getattr(more.get("sealing"), "identity", "")
    batch = Batch(read_sale(sale).lots, Journal(there, base, order, program, identity), workers, **more)  # type: ignore[arg-type]
    with there.held():
        taken = list(batch)
        return Run(taken, batch.left_over(), workers.asked)


def tree(folder: Path) -> Mapping[str, bytes]:
    """Every file of a folder but the notes, which hold times."""
    found = {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    return {name: content for name, content in found.items() if not name.startswith(".batch")}


def states(folder: Path) -> Mapping[str, tuple[int, int]]:
    """When each file was last changed, and which one it is."""
    return {
        path.relative_to(folder).as_posix(): (path.stat().st_mtime_ns, path.stat().st_ino)
        for path in folder.rglob("*")
        if path.is_file()
    }


def other_lot(listed: Listed) -> Listed:
    """The same under another number of the sale."""
    return replace(listed, lot="999")


def with_its_process(listed: Listed, order: Order) -> Made:
    """A lot with which lot and process; lot 2 ends its process at the first time, lot 4 always."""
    died = listed.inspection.with_name("died")
    if listed.place == 4 or (listed.place == 2 and not died.exists()):
        died.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return Made(listed, faulty_lot(entry_of(listed), ()), {"made by": str(os.getpid()).encode()})


def waiting_for_ever(listed: Listed, order: Order) -> Made:
    """Says which process it is, and never ends."""
    listed.inspection.with_name("process").write_text(str(os.getpid()))
    listed.inspection.with_name("told").open("wb").close()  # a pipe, on which the test waits
    signal.pause()
    raise AssertionError


def without_engine(listed: Listed, order: Order) -> Made:
    raise ModuleNotFoundError("no engine")
