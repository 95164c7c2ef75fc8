"""One file, from its bytes to its type, whatever its kind."""

from collections.abc import Iterator
from typing import TypeVar

from tracksworn.inspection.file_types.base import FileType
from tracksworn.inspection.file_types.chart import ChartFile
from tracksworn.inspection.file_types.header import another_kind
from tracksworn.inspection.file_types.inspection import InspectionFile
from tracksworn.inspection.file_types.letterhead import LetterheadFile
from tracksworn.inspection.file_types.prices import PricesFile
from tracksworn.inspection.file_types.terms import TermsFile
from tracksworn.inspection.starting import NOT_LOOKED_AT, TO_BE_FILLED_IN
from tracksworn.inspection.vocabulary import Kind
from tracksworn.inspection.written import TOP, FaultList, Node, Record, Text, one_of, quoted, suggestion
from tracksworn.inspection.yaml_source import read_yaml

F = TypeVar("F", bound=FileType)

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
    wanted = kind_read_as(file_type)
    if not isinstance(said, Text) or said == wanted.header or not _names_a_kind(said):
        return False
    faults.add(said.mark, another_kind(said, wanted))
    return True


def kind_read_as(file_type: type[FileType]) -> Kind:
    """The kind of the files that are read as that type."""
    return next(kind for kind, known in FILE_TYPES.items() if known is file_type)


def _names_a_kind(said: str) -> bool:
    """Whether it is the name of a kind of file and a version, this one or another."""
    name, _, version = said.rpartition(" ")
    return version.isdecimal() and any(kind.header.startswith(f"{name} ") for kind in Kind)


def read_record(record: Record, file_type: type[F], faults: FaultList) -> F:
    """A mapping as that type. What was left as a starting file has it is a warning."""
    record.mark = TOP
    read = file_type.model_validate(record, context=faults)
    _tell_unfilled(record, faults)
    return read


def _tell_unfilled(record: Record, faults: FaultList) -> None:
    texts = list(_texts(record))
    for text in texts:
        if text in TO_BE_FILLED_IN:
            faults.warn(text.mark, f"{quoted(text)} stands here still; fill it in")
    unseen = [text for text in texts if text == NOT_LOOKED_AT]
    if unseen:
        many = "this reading says" if len(unseen) == 1 else f"{len(unseen)} readings from here on say"
        faults.warn(unseen[0].mark, f"{many} {quoted(NOT_LOOKED_AT)}, as the starting file did")


def _texts(node: Node) -> Iterator[Text]:
    if isinstance(node, Text):
        yield node
        return
    for inner in node.values() if isinstance(node, Record) else node:
        yield from _texts(inner)


def kind_of(record: Record, faults: FaultList) -> Kind | None:
    """The kind that a file says it is, or None with the fault noted."""
    said = record.get("tracksworn")
    headers = {kind.header: kind for kind in Kind}
    if not isinstance(said, Text):
        mark = TOP if said is None else said.mark
        faults.add(mark, f"`tracksworn` says what kind of file this is, and is missing here; write {one_of(headers)}")
        return None
    if said not in headers:
        if _names_a_kind(said):
            faults.add(said.mark, f"{quoted(said)} is another version; this program reads {one_of(headers)}")
        else:
            faults.add(said.mark, f"{quoted(said)} is no kind of file that is known here; {suggestion(said, headers)}")
    return headers.get(said)
