"""What a finished PDF of this program says of itself, read from the files that it carries."""

import hashlib
import io
import json
import posixpath
import re
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath
from typing import Any, Final

import pikepdf

from tracksworn.assessment.model import Stage
from tracksworn.documents.attached import ASSESSMENT, FINGERPRINT, Relationship
from tracksworn.documents.making import MAKING, read_making
from tracksworn.documents.statement import KIND as ASSESSMENT_KIND
from tracksworn.inspection.file_types.inspection import InspectionFile
from tracksworn.inspection.file_types.letterhead import LetterheadFile
from tracksworn.inspection.loading import load
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.written import FaultList
from tracksworn.records.archive.held import Facts, NotTaken
from tracksworn.records.plainly import plainly
from tracksworn.records.sealing.quiet import quiet

_ONLY: Final = "only documents of this program are archived"
_NAME: Final = re.compile("[a-z]{1,30}")  # files are named by it


def read_facts(content: bytes) -> Facts:
    """What the document is about.

    Raises NotTaken for a file that is no document of one inspection made by this program, or whose attached files
    are not those that its fingerprint names. Whether it is sealed and true is for `verify` to say.
    """
    files, source = _carried(content)
    statement = _statement(files)
    inspection = _inspection(files, source, statement)
    firm = _firm(files, source, inspection.letterhead) or inspection.inspector.organisation
    return Facts(
        number=inspection.number,
        revision=inspection.revision,
        maker=inspection.machine.maker,
        model=inspection.machine.model,
        serial=inspection.machine.serial,
        inspector=inspection.inspector.name,
        firm=firm,
        inspected=inspection.inspected,
        issued=inspection.issued or inspection.inspected,
        stage=_stage(statement),
        words="\n".join(dict.fromkeys(_words(inspection, statement, firm))),
        document=_document(files),
    )


def unlike(held: bytes, content: bytes) -> str | None:
    """How a document differs from what is held in its place; None where both are made in one way from the same data.

    Of those made to be sealed, by which program, when, and with which seal does not count; of others every byte does,
    since they do not say how they were made. Raises NotTaken for what is no document of this program.
    """
    before, now = _carried(held)[0], _carried(content)[0]
    if before[FINGERPRINT] != now[FINGERPRINT]:
        same = _digests(before) == _digests(now)
        return "computed by another version of the program" if same else "with other data"
    if MAKING not in now:
        return None if held == content else "made in another way, and only sealed ones stand beside each other"
    same = _making(before) == _making(now)
    return None if same else "made in another language, in other units, on other paper or for another lot number"


def _digests(files: Mapping[str, bytes]) -> Any:
    """The SHA-256 of every file that a document follows from."""
    return json.loads(files[FINGERPRINT])["files"]


def _making(files: Mapping[str, bytes]) -> Mapping[str, Any]:
    said: Mapping[str, Any] = json.loads(files[MAKING])
    return {**said, "program": ""}


def _carried(content: bytes) -> tuple[Mapping[str, bytes], str]:
    """The attached files by name, and the name of the first that is a source: the inspection itself."""
    try:
        with quiet(), pikepdf.open(io.BytesIO(content)) as pdf:
            files = {name: spec.get_file().read_bytes() for name, spec in pdf.attachments.items()}
            associated = pdf.Root.get("/AF", pikepdf.Array())
            sources = [
                str(spec.get("/UF") or spec.get("/F"))
                for spec in associated
                if spec.get("/AFRelationship") == pikepdf.Name(f"/{Relationship.SOURCE}")
            ]
    except (pikepdf.PdfError, pikepdf.PasswordError, ValueError) as error:
        raise NotTaken(f"it cannot be read as a PDF ({plainly(error)}); {_ONLY}") from None
    except (TypeError, AttributeError, KeyError):  # of what stands in another's place
        raise NotTaken(f"it cannot be read as a PDF (what it carries is damaged); {_ONLY}") from None
    if ASSESSMENT not in files and any(name.endswith(f"/{ASSESSMENT}") for name in files):
        raise NotTaken("it puts several inspections side by side; archive the document of each of them instead")
    missing = [name for name in (ASSESSMENT, FINGERPRINT) if name not in files]
    if missing:
        raise NotTaken(f"it carries no {' and no '.join(missing)}; {_ONLY}")
    if not sources or sources[0] not in files:
        raise NotTaken(f"it does not carry its inspection; {_ONLY}")
    return files, sources[0]


def _statement(files: Mapping[str, bytes]) -> Mapping[str, Any]:
    """The assessment, which its fingerprint must name together with every file that is there."""
    try:
        statement, named = json.loads(files[ASSESSMENT]), json.loads(files[FINGERPRINT])
        digests = named["files"]
        same = statement == named["assessment"] and statement["tracksworn"] == ASSESSMENT_KIND
    except (ValueError, KeyError, TypeError):
        raise NotTaken(f"its {ASSESSMENT} and {FINGERPRINT} cannot be read; they were altered") from None
    if not same:
        raise NotTaken(f"its {ASSESSMENT} is not that of its {FINGERPRINT}; one of them was altered")
    for name, content in files.items():
        if name not in (ASSESSMENT, FINGERPRINT, MAKING) and digests.get(name) != hashlib.sha256(content).hexdigest():
            raise NotTaken(f"its attached {name} is not the file that its {FINGERPRINT} names; it was altered")
    return statement  # type: ignore[no-any-return]


def _document(files: Mapping[str, bytes]) -> str:
    """Which document it is, which one says that was made to be sealed; else nothing."""
    if MAKING not in files:
        return ""
    try:
        document = read_making(files[MAKING]).document
    except ValueError as error:
        raise NotTaken(f"it does not say how it was made: {error}") from None
    if not _NAME.fullmatch(document):
        raise NotTaken(f"its {MAKING} names a document that this program does not make")
    return document


def _inspection(files: Mapping[str, bytes], source: str, statement: Mapping[str, Any]) -> Inspection:
    faults = FaultList(Path(source))
    file = load(files[source], InspectionFile, faults)
    if file is None or faults.bad:
        raise NotTaken(f"its inspection has faults: {faults.faults[0]}")
    inspection = file.inspection()
    if (inspection.number, inspection.revision) != (statement["number"], statement["revision"]):
        raise NotTaken(f"its {ASSESSMENT} is of another record than its {source}")
    return inspection


def _firm(files: Mapping[str, bytes], source: str, letterhead: PurePosixPath | None) -> str | None:
    content = files.get(posixpath.normpath(posixpath.join(posixpath.dirname(source), letterhead or "")))
    file = load(content, LetterheadFile, FaultList(Path(str(letterhead)))) if content and letterhead else None
    return str(file.firm) if file is not None and isinstance(file.firm, str) else None


def _stage(statement: Mapping[str, Any]) -> Stage | None:
    stages = {row.get("stage") for row in statement["components"]}
    return next((stage for stage in reversed(Stage) if stage in stages), None)


def _words(inspection: Inspection, statement: Mapping[str, Any], firm: str | None) -> Iterator[str]:
    machine = inspection.machine
    said = (
        inspection.number, machine.maker, machine.model, machine.serial, inspection.inspector.name, firm,
        inspection.inspector.engaged_by, inspection.lot, inspection.place, inspection.purpose, inspection.conditions,
        inspection.limits_of_access, inspection.notes,
    )  # fmt: skip
    yield from (text for text in said if text)
    for observation in inspection.observations:
        yield " ".join(map(str, observation.seen))
        yield observation.note or ""
    for finding in statement["findings"]:
        yield from (finding["code"], *finding["because"], finding["advice"])
