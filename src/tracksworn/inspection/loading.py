"""One file, from its bytes to its type, whatever its kind."""

import re
from typing import TypeVar

from tracksworn.inspection.file_types.base import FileType
from tracksworn.inspection.file_types.chart import ChartFile
from tracksworn.inspection.file_types.inspection import InspectionFile
from tracksworn.inspection.file_types.kinds import Kind
from tracksworn.inspection.file_types.letterhead import LetterheadFile
from tracksworn.inspection.file_types.prices import PricesFile
from tracksworn.inspection.file_types.terms import TermsFile
from tracksworn.inspection.written import TOP, FaultList, Record, Text, one_of, quoted, suggestion
from tracksworn.inspection.yaml_source import read_yaml

F = TypeVar("F", bound=FileType)
_HEADER = re.compile(r"(inspection|wear chart|letterhead|prices|terms) [0-9]+")

FILE_TYPES: dict[Kind, type[FileType]] = {
    Kind.INSPECTION: InspectionFile,
    Kind.CHART: ChartFile,
    Kind.LETTERHEAD: LetterheadFile,
    Kind.PRICES: PricesFile,
    Kind.TERMS: TermsFile,
}


def load(content: bytes, file_type: type[F], faults: FaultList) -> F | None:
    """The file as that type, or None where it does not even read as YAML. Every fault is noted."""
    record = read_yaml(content, faults)
    if record is None or _is_another_kind(record, file_type, faults):
        return None
    return read_record(record, file_type, faults)


def _is_another_kind(record: Record, file_type: type[FileType], faults: FaultList) -> bool:
    """A whole file of another kind or version is told once, not key by key."""
    said = record.get("tracksworn")
    wanted = next(kind.header for kind, known in FILE_TYPES.items() if known is file_type)
    if not isinstance(said, Text) or said == wanted or not _HEADER.fullmatch(said):
        return False
    faults.add(said.mark, f"{quoted(said)} is another kind of file or version; `{wanted}` belongs here")
    return True


def read_record(record: Record, file_type: type[F], faults: FaultList) -> F:
    """A mapping as that type."""
    record.mark = TOP
    return file_type.model_validate(record, context=faults)


def kind_of(record: Record, faults: FaultList) -> Kind | None:
    """The kind that a file says it is, or None with the fault noted."""
    said = record.get("tracksworn")
    headers = {kind.header: kind for kind in Kind}
    if not isinstance(said, Text):
        mark = TOP if said is None else said.mark
        faults.add(mark, f"`tracksworn` says what kind of file this is, and is missing here; write {one_of(headers)}")
        return None
    if _HEADER.fullmatch(said) and said not in headers:
        faults.add(said.mark, f"{quoted(said)} is another version; this program reads {one_of(headers)}")
    elif said not in headers:
        faults.add(said.mark, f"{quoted(said)} is no kind of file that is known here; {suggestion(said, headers)}")
    return headers.get(said)
