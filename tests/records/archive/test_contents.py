"""What is taken for a document of this program, and what is refused, with the one reason why."""

import io
import json
import logging
import re
from collections.abc import Callable
from hashlib import sha256

import pikepdf
import pytest
from archived import bound, carried, document, pdf_with

from tracksworn.documents.attached import Attachment, Relationship
from tracksworn.records.archive.contents import read_facts
from tracksworn.records.archive.facts import facts_json, facts_of
from tracksworn.records.archive.held import NotTaken


def without(name: str) -> bytes:
    return pdf_with([Attachment(n, c, "a/b", _of(n), "") for n, c in carried().items() if n != name])


def _of(name: str) -> Relationship:
    return Relationship.DATA if name.endswith(".json") else Relationship.SOURCE


def altered(name: str, old: bytes, new: bytes) -> bytes:
    files = {n: c.replace(old, new, 1) if n == name else c for n, c in carried().items()}
    assert files != carried()
    return pdf_with([Attachment(n, c, "a/b", _of(n), "") for n, c in files.items()])


def another_record() -> bytes:
    statement = json.loads(carried()["assessment.json"])
    return bound(carried(), statement | {"number": "OXB-0232"})


def side_by_side() -> bytes:
    files = [Attachment(f"OXB-0231-r0/{n}", c, "a/b", _of(n), "") for n, c in carried().items()]
    return pdf_with([Attachment("fingerprint.json", b'{"parts":[]}', "a/b", Relationship.DATA, ""), *files])


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "it cannot be read as a PDF"),
        (b"%PDF-1.7\nnothing", "it cannot be read as a PDF"),
        (pdf_with([]), "it carries no assessment.json and no fingerprint.json; only documents of this program"),
        (without("fingerprint.json"), "it carries no fingerprint.json; only"),
        (without("OXB-0231/inspection.yaml"), "its inspection has faults|another record|no inspection|of another kind"),
        (side_by_side(), "it puts several inspections side by side; archive the document of each of them instead"),
        (altered("assessment.json", b'"near limit"', b'"first half"'), "its assessment.json is not that of its fing"),
        (altered("assessment.json", b"{", b"["), "its assessment.json and fingerprint.json cannot be read"),
        (altered("OXB-0231/inspection.yaml", b"20417", b"20418"), "its attached OXB-0231/inspection.yaml is not the"),
        (another_record(), "its assessment.json is of another record than its OXB-0231/inspection.yaml"),
    ],
    ids=range(10),
)
def test_what_is_not_taken(content: bytes, why: str) -> None:
    with pytest.raises(NotTaken, match=why):
        read_facts(content)


def test_a_locked_pdf_is_not_taken(tmp_path: object) -> None:

    locked = io.BytesIO()
    with pikepdf.open(io.BytesIO(document())) as pdf:
        pdf.save(locked, encryption=pikepdf.Encryption(owner="o", user="u"))
    with pytest.raises(NotTaken, match="cannot be read as a PDF"):
        read_facts(locked.getvalue())


def test_facts_are_written_and_read_back() -> None:
    facts = read_facts(document())
    written = facts_json(facts, sha256(document()).hexdigest())
    assert facts_of(written) == facts
    assert facts_of(written[:-1]) is None
    assert facts_of(b"[]") is None


def test_words_are_what_was_seen_and_what_follows() -> None:
    words = read_facts(document(note="Packed with clay")).words
    assert {"Packed with clay", "side wear", "near-limit", "Ines Marlow", "20417"} <= set(words.split("\n"))
    assert "letterhead" not in words


def test_a_document_without_letterhead_is_its_inspectors() -> None:
    files = {n: c.replace(b"letterhead: ../letterheads/millrace.yaml\n", b"") for n, c in carried().items()}
    del files["letterheads/millrace.yaml"]
    assert read_facts(bound(files, json.loads(carried()["assessment.json"]))).firm is None
    own = files["OXB-0231/inspection.yaml"].replace(b"Ines Marlow}", b"Ines Marlow, organisation: Own Survey}")
    files["OXB-0231/inspection.yaml"] = own
    assert read_facts(bound(files, json.loads(carried()["assessment.json"]))).firm == "Own Survey"


def with_damaged_stream(content: bytes) -> bytes:
    at = content.index(b"stream", content.index(b"/EmbeddedFile")) + 30
    return content[:at] + b"\xff" * 9 + content[at + 9 :]


@pytest.mark.parametrize(
    "damaged",
    [
        lambda content: content[:500],
        lambda content: content.replace(b"/Root", b"/Boot"),
        with_damaged_stream,
        lambda content: content.replace(b"/Filespec", b"/Filespe4").replace(b"/EF", b"/XX"),
    ],
)
def test_a_damaged_file_is_told_in_words_of_files(
    damaged: Callable[[bytes], bytes],
) -> None:
    with pytest.raises(NotTaken, match=r"only documents of this program are archived$") as refused:
        read_facts(damaged(document()))
    assert not re.search("BytesIO|0x|NoneType|attribute", str(refused.value))


def test_what_a_library_logs_of_a_damaged_file_is_not_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    printed: list[str] = []

    class Printing(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            printed.append(record.getMessage())

    monkeypatch.setattr(logging.root, "handlers", [])
    monkeypatch.setattr(logging, "lastResort", Printing())
    says_so = logging.getLogger("pikepdf._core").warning

    def opening(*_: object) -> None:
        says_so("Pages tree includes non-dictionary object; ignoring")
        raise pikepdf.PdfError("damaged")

    monkeypatch.setattr(pikepdf, "open", opening)
    with pytest.raises(NotTaken, match="damaged"):
        read_facts(document())
    assert printed == []
    says_so("of others")
    assert printed == ["of others"]
