"""What is kept of a record whose files are gone: which machine, which days, the digests; no people, no findings."""

import json
import re
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, Final

import rfc8785

from tracksworn.records.archive.held import MOMENT, Facts, Form, Held, NotTaken, Record

TOMBSTONE: Final = "tombstone.json"
KIND: Final = "tombstone 1"
MACHINE: Final = ("maker", "model", "serial")
DAYS: Final = ("inspected", "issued")
MOST_REVISIONS: Final = 999
MOST_BYTES: Final = 1 << 53
_NUMBER: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}")
_DOCUMENT: Final = re.compile("[a-z]{0,30}")
_SHA256: Final = re.compile("[0-9a-f]{64}")
_TEXT: Final = re.compile(".{0,2000}")


def tombstone_json(record: Record, rule: str, at: str) -> bytes:
    """The tombstone of a record that expires by a rule at that time, in the RFC 8785 form."""
    said: list[Mapping[str, Any]] = [
        {
            "revision": held.revision,
            **({"document": held.document} if held.document else {}),
            **_form(held),
            **_former([form for form in record.former if form.name == held.name]),
            **({} if held.facts is None else _machine(held.facts)),
        }
        for held in record.documents
    ]
    tombstone: dict[str, Any] = {"tracksworn": KIND, "number": record.number, "expired": at, "rule": rule}
    return rfc8785.dumps(tombstone | {"revisions": said})


def read_tombstone(content: bytes, act: int) -> Record:
    """The record that another archive's tombstone is of; `act` is the one by which it is known here.

    Raises NotTaken for what is none.
    """
    try:
        plain = json.loads(content)
        if plain["tracksworn"] != KIND or not plain["revisions"]:
            raise ValueError
        number, expired = _matching(_NUMBER, plain["number"]), _matching(MOMENT, plain["expired"])
        held = tuple(_held(number, one, expired, act) for one in plain["revisions"])
        former = tuple(form for one, own in zip(plain["revisions"], held, strict=True) for form in _forms(one, own))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise NotTaken("it is no tombstone of a record, or was altered") from None
    if len({one.name for one in held}) < len(held):
        raise NotTaken("it is a tombstone that names a document twice; it was altered")
    return Record(number, held, (), former)


def _form(form: Held | Form) -> Mapping[str, Any]:
    return {"sha256": form.sha256, "bytes": form.size, "added": form.added}


def _former(forms: Sequence[Form]) -> Mapping[str, Any]:
    return {"former": [_form(form) for form in forms]} if forms else {}


def _machine(facts: Facts) -> Mapping[str, str]:
    return {
        "maker": facts.maker,
        "model": facts.model,
        "serial": facts.serial,
        "inspected": facts.inspected.isoformat(),
        "issued": facts.issued.isoformat(),
    }


def _held(number: str, plain: Mapping[str, Any], expired: str, act: int) -> Held:
    revision, document = _count(plain["revision"], MOST_REVISIONS), _matching(_DOCUMENT, plain.get("document", ""))
    sha256, size, added = _read_form(plain)
    facts = _facts(number, revision, document, plain) if "serial" in plain else None
    return Held(number, revision, sha256, size, added, act, facts, expired, document=document, elsewhere=True)


def _facts(number: str, revision: int, document: str, plain: Mapping[str, Any]) -> Facts:
    maker, model, serial = (_matching(_TEXT, plain[key]) for key in MACHINE)
    inspected, issued = (date.fromisoformat(plain[key]) for key in DAYS)
    return Facts(number, revision, maker, model, serial, "", None, inspected, issued, None, document=document)


def _forms(plain: Mapping[str, Any], held: Held) -> Sequence[Form]:
    key = (held.number, held.revision, held.document)
    return [Form(*key, *_read_form(one), held.act) for one in plain.get("former", ())]


def _read_form(plain: Mapping[str, Any]) -> tuple[str, int, str]:
    return _matching(_SHA256, plain["sha256"]), _count(plain["bytes"], MOST_BYTES), _matching(MOMENT, plain["added"])


def _matching(right: re.Pattern[str], said: str) -> str:
    if not right.fullmatch(said):
        raise ValueError
    return said


def _count(said: int, most: int) -> int:
    if type(said) is not int or not 0 <= said <= most:
        raise ValueError
    return said
