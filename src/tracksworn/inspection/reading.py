"""From files to a dossier: an inspection with everything that it names, or every fault in any of it.

read the bytes → YAML with places → file types → rules within a file → rules between files → plain values
"""

import os
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path, PurePosixPath
from typing import Generic

from tracksworn.inspection.agreement import (
    tell_against_chart,
    tell_against_earlier,
    tell_among_earlier,
    tell_doubts,
)
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.dossier import Dossier, Font, Picture, PictureRefused, Source, Stationery
from tracksworn.inspection.faults import Fault, Faulty, Weight, printable
from tracksworn.inspection.file_types.base import FileType
from tracksworn.inspection.file_types.chart import ChartFile
from tracksworn.inspection.file_types.inspection import InspectionFile
from tracksworn.inspection.file_types.letterhead import LetterheadFile
from tracksworn.inspection.file_types.prices import PricesFile
from tracksworn.inspection.file_types.terms import TermsFile
from tracksworn.inspection.folders import find, read_at_most, shown
from tracksworn.inspection.fonts import LARGEST_FONT, FontRefused, read_font
from tracksworn.inspection.inputs import Input, read_input
from tracksworn.inspection.letterhead import Letterhead
from tracksworn.inspection.lettering import stand_in, unprinted
from tracksworn.inspection.loading import FILE_TYPES, F, kind_of, kind_read_as, load, read_record
from tracksworn.inspection.pictures import read_mark, read_photo
from tracksworn.inspection.prices import Prices
from tracksworn.inspection.terms import Terms
from tracksworn.inspection.written import TOP, FaultList, Mark, Wrong, quoted
from tracksworn.inspection.yaml_source import LARGEST_FILE, read_yaml

INSPECTION_NAME = "inspection.yaml"
LARGEST_PICTURE = 100_000_000  # bytes
DEEPEST_HISTORY = 30


def read_inspection(path: Path) -> Dossier:
    """An inspection, by its file or its folder, with everything that it names.

    Raises Faulty with all faults and warnings of all the files, Failed where the machine refuses.
    """
    return _read(_Reader(path))


def read_attached(path: Path) -> Dossier:
    """An inspection from the files that a document carries, which are enough to compute its assessment anew.

    Photos, the letterhead's mark and fonts, and what earlier inspections name are not among them, nor looked for.
    """
    return _read(_Reader(path, attached=True))


def _read(reader: "_Reader") -> Dossier:
    dossier = reader.read() if reader.found else None
    faults = reader.told()
    if dossier is None or any(fault.weight is Weight.FAULT for fault in faults):
        raise Faulty(faults)
    return dossier


def read_letterhead(path: Path) -> Stationery:
    """A letterhead with its mark and fonts. Raises Faulty with every fault in it, Failed where it cannot be read."""
    reader = _Reader(path)
    stationery = reader.stationery() if reader.found else None
    faults = reader.told()
    if stationery is None or any(fault.weight is Weight.FAULT for fault in faults):
        raise Faulty(faults)
    return stationery


def check(path: Path) -> tuple[Fault, ...]:
    """Every fault and warning of a file of any kind, or of a folder that holds an inspection; raises Failed."""
    reader = _Reader(path)
    if reader.found:
        reader.check()
    return reader.told()


@dataclass(frozen=True, slots=True)
class _Opened(Generic[F]):
    """A file that was named, its folder with links resolved, and its own faults."""

    file: F
    folder: Path
    faults: FaultList


class _Reader:
    """Reads one file and what it names; gathers digests and the faults of every file."""

    def __init__(self, path: Path, *, attached: bool = False) -> None:
        is_folder = os.path.isdir(path)  # noqa: PTH112 - unlike Path.is_dir it never raises
        self.path = path / INSPECTION_NAME if is_folder else path
        self.folder = self.path.parent
        self.attached = attached
        self.gathered: list[FaultList] = []
        self.read_files: list[tuple[FileType, FaultList]] = []
        self.fonts: tuple[Font, ...] = ()
        self.digests: dict[str, str] = {}
        self.sources: list[Source] = []
        self.inputs: list[Input] = []
        self.history: dict[Path, Dossier | None] = {}
        self.found = self._is_there(is_folder=is_folder)
        self.root = self.folder.resolve().parent if self.found else self.folder

    def told(self) -> tuple[Fault, ...]:
        """All faults, in the order of file, line and column."""
        return tuple(sorted({fault for faults in self.gathered for fault in faults.faults}))

    def _is_there(self, *, is_folder: bool) -> bool:
        try:
            find(self.path.name, self.folder, None)
        except Wrong as error:
            self._faults_of(self.path).add(TOP, _no_inspection(self.folder) if is_folder else error.what)
            return False
        return True

    def _faults_of(self, file: Path) -> FaultList:
        faults = FaultList(file)
        self.gathered.append(faults)
        return faults

    def check(self) -> None:
        """Read a file of whatever kind it says it is."""
        faults = self._faults_of(self.path)
        record = read_yaml(read_at_most(self.path, LARGEST_FILE), faults)
        kind = None if record is None else kind_of(record, faults)
        file = read_record(record, FILE_TYPES[kind], faults) if record is not None and kind is not None else None
        if file is not None:
            self.read_files.append((file, faults))
        if isinstance(file, InspectionFile):
            self._everything(file, faults)
            return
        if isinstance(file, LetterheadFile):
            self._mark(file, self.folder, faults)
            self._fonts(file, self.folder, faults)
        self._tell_unprinted()

    def read(self) -> Dossier | None:
        """Read an inspection and everything that it names."""
        faults = self._faults_of(self.path)
        source = self._source(self.path, self.folder.resolve() / self.path.name, InspectionFile)
        self._keep(source)
        file = self._load(source.content, InspectionFile, faults)
        return None if file is None else self._everything(file, faults)

    def stationery(self) -> Stationery | None:
        """Read a letterhead alone."""
        faults = self._faults_of(self.path)
        file = self._load(read_at_most(self.path, LARGEST_FILE), LetterheadFile, faults)
        if file is None:
            return None
        mark = self._mark(file, self.folder, faults)
        self._fonts(file, self.folder, faults)
        return None if faults.bad else Stationery(file.letterhead(), mark, self.fonts)

    def _load(self, content: bytes, file_type: type[F], faults: FaultList) -> F | None:
        file = load(content, file_type, faults)
        if file is not None:
            self.read_files.append((file, faults))
        return file

    def _everything(self, file: InspectionFile, faults: FaultList) -> Dossier | None:
        """The inspection with everything that it names."""
        tell_doubts(file, faults)
        chart = self._chart(file, faults)
        letterhead, mark = self._letterhead(file, faults)
        prices = self._prices(file, faults)
        terms = self._terms(file, faults)
        photos = {} if self.attached else self._photos(file, faults)
        earlier = self._earlier(file, self.folder, faults, (self.path.resolve(),))
        self._tell_unprinted()
        if any(part.bad for part in self.gathered):
            return None
        warnings = tuple(fault for fault in self.told() if fault.weight is Weight.WARNING)
        return Dossier(
            inspection=file.inspection(),
            folder=self.folder,
            chart=chart,
            letterhead=letterhead,
            mark=mark,
            fonts=self.fonts,
            prices=prices,
            terms=terms,
            earlier=earlier,
            photos=photos,
            digests=self.digests,
            sources=tuple(self.sources),
            inputs=tuple(self.inputs),
            warnings=warnings,
        )

    def _find(self, name: PurePosixPath, folder: Path, root: Path, mark: Mark, faults: FaultList) -> Path | None:
        try:
            return find(name, folder, root)
        except Wrong as error:
            faults.add(mark, error.what)
            return None

    def _load_named(
        self, name: PurePosixPath | None, mark: Mark, file_type: type[F], faults: FaultList
    ) -> "_Opened[F] | None":
        """A file that the inspection names."""
        real = self._find(name, self.folder, self.root, mark, faults) if name else None
        if real is None or name is None:
            return None
        source = self._source(self.folder / name, real, file_type)
        self._keep(source)
        own = self._faults_of(shown(name, self.folder))
        file = self._load(source.content, file_type, own)
        return None if file is None else _Opened(file, real.parent, own)

    def _source(self, path: Path, real: Path, file_type: type[FileType]) -> Source:
        return Source(self._name(real), kind_read_as(file_type), self._bytes(path, real, LARGEST_FILE))

    def _bytes(self, path: Path, real: Path, limit: int) -> bytes:
        """A file's bytes, read once and noted, so that it can be told whether it changes."""
        content, noted = read_input(path, real, limit)
        self.inputs.append(noted)
        return content

    def _keep(self, source: Source) -> None:
        """Keep the very bytes that are read, so that a file that changes later is not taken for what was read."""
        self.sources.append(source)
        self._digest(source.name, source.content)

    def _digest(self, name: str, content: bytes) -> None:
        self.digests[name] = sha256(content).hexdigest()

    def _name(self, real: Path) -> str:
        """A file's name from the folder above, which is the same in every locale."""
        return printable(real.relative_to(self.root))

    def _chart(self, file: InspectionFile, faults: FaultList) -> WearChart | None:
        name = file.chart if isinstance(file.chart, PurePosixPath) else None
        read = self._load_named(name, file.where("chart"), ChartFile, faults)
        if read is None or read.faults.bad:
            return None
        chart = read.file.chart()
        tell_against_chart(file, chart, faults)
        return chart

    def _letterhead(self, file: InspectionFile, faults: FaultList) -> tuple[Letterhead | None, Picture | None]:
        read = self._load_named(file.letterhead, file.where("letterhead"), LetterheadFile, faults)
        if read is None:
            return None, None
        mark = None
        if not self.attached:
            mark = self._mark(read.file, read.folder, read.faults)
            self._fonts(read.file, read.folder, read.faults)
        return (None if read.faults.bad else read.file.letterhead()), mark

    def _mark(self, file: LetterheadFile, folder: Path, faults: FaultList) -> Picture | None:
        real = self._find(file.mark, folder, folder, file.where("mark"), faults) if file.mark else None
        if real is None or file.mark is None:
            return None
        try:
            return read_mark(file.mark.name, self._picture(folder / file.mark, real))
        except (PictureRefused, Wrong) as error:
            faults.add(file.where("mark"), f"{quoted(str(file.mark))} cannot be used: {error}")
            return None

    def _fonts(self, file: LetterheadFile, folder: Path, faults: FaultList) -> None:
        """The fonts of a letterhead, whose characters can then be printed."""
        fonts: list[Font] = []
        for name, mark in file.listed("fonts"):
            real = self._find(name, folder, folder, mark, faults)
            if real is None:
                continue
            try:
                fonts.append(read_font(name.name, self._bytes(folder / name, real, LARGEST_FONT)))
            except FontRefused as error:
                faults.add(mark, f"the font {quoted(str(name))} cannot be used: {error}")
        self.fonts = tuple(fonts)

    def _tell_unprinted(self) -> None:
        """Warn, in every file without faults, of characters that no font holds."""
        if self.attached:
            return
        further = [font.characters for font in self.fonts]
        for file, faults in self.read_files:
            for text in () if faults.bad else file.texts():
                if missing := unprinted(text, further):
                    faults.warn(text.at(text.index(missing[0])), _no_font(missing))

    def _picture(self, path: Path, real: Path) -> bytes:
        content = self._bytes(path, real, LARGEST_PICTURE)
        if len(content) > LARGEST_PICTURE:
            raise Wrong("it is larger than 100 MB")
        return content

    def _prices(self, file: InspectionFile, faults: FaultList) -> Prices | None:
        read = self._load_named(file.prices, file.where("prices"), PricesFile, faults)
        return None if read is None or read.faults.bad else read.file.prices()

    def _terms(self, file: InspectionFile, faults: FaultList) -> Terms | None:
        read = self._load_named(file.terms, file.where("terms"), TermsFile, faults)
        return None if read is None or read.faults.bad else read.file.terms()

    def _photos(self, file: InspectionFile, faults: FaultList) -> dict[PurePosixPath, Picture]:
        photos: dict[PurePosixPath, Picture] = {}
        tried: set[PurePosixPath] = set()
        for name, mark in file.photo_names():
            if name in tried:
                continue
            tried.add(name)
            real = self._find(name, self.folder, self.folder, mark, faults)
            if real is None:
                continue
            try:
                content = self._picture(self.folder / name, real)
                photos[name] = read_photo(content)
                self._digest(self._name(real), content)
            except (PictureRefused, Wrong) as error:
                faults.add(mark, f"the photo {quoted(str(name))} cannot be used: {error}")
        return photos

    def _earlier(
        self, file: InspectionFile, folder: Path, faults: FaultList, above: tuple[Path, ...]
    ) -> tuple[Dossier, ...]:
        """The earlier inspections that a file names, each with its own; only those named directly are digested."""
        found: list[tuple[Mark, Dossier]] = []
        named: set[Path] = set()
        for name, mark in file.listed("earlier"):
            real = self._find(name, folder, self.root, mark, faults)
            if real is None:
                continue
            if real in above:
                faults.add(mark, f"{quoted(str(name))} leads in a circle back to this inspection")
                continue
            if real in named or len(above) > DEEPEST_HISTORY:
                faults.add(mark, f"{quoted(str(name))} stands here twice" if real in named else _TOO_DEEP)
                continue
            named.add(real)
            dossier = self._one_earlier(folder / name, real, shown(name, faults.file.parent), above)
            if dossier is not None:
                if len(above) == 1:
                    self._keep(dossier.sources[0])
                tell_against_earlier(file, dossier.inspection, mark, faults)
                found.append((mark, dossier))
        tell_among_earlier([(mark, dossier.inspection) for mark, dossier in found], faults)
        return tuple(dossier for _, dossier in found)

    def _one_earlier(self, path: Path, real: Path, told: Path, above: tuple[Path, ...]) -> Dossier | None:
        if real not in self.history:
            faults = self._faults_of(told)
            source = self._source(path, real, InspectionFile)
            file = self._load(source.content, InspectionFile, faults)
            earlier = () if file is None or self.attached else self._earlier(file, real.parent, faults, (*above, real))
            self.history[real] = (
                None
                if file is None or faults.bad
                else Dossier(file.inspection(), told.parent, earlier=earlier, sources=(source,))
            )
        return self.history[real]


_TOO_DEEP = f"more than {DEEPEST_HISTORY} earlier inspections stand behind one another"


def _no_font(missing: tuple[str, ...]) -> str:
    first, *others = missing
    more = f" (and {len(others)} other{'s' if len(others) > 1 else ''} in this text)" if others else ""
    return (
        f"no font holds {quoted(first)}{more}, which prints as `{stand_in(first)}`; "
        "a font that holds it can stand under `fonts` in the letterhead"
    )


def _no_inspection(folder: Path) -> str:
    below = sum(1 for _ in folder.glob(f"*/{INSPECTION_NAME}"))
    hint = f"; {below} folders in it do: name those, as {quoted(f'{folder}/*')}" if below else ""
    return f"this folder holds no `{INSPECTION_NAME}`{hint}"
