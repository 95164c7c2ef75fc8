"""What was appended to a sealed file: only what its seal allows, and every byte of it accounted for.

Allowed are certificates and revocation data with timestamps of the whole (ETSI EN 319 142-1), and one signature where
the seal left room for it (ISO 32000-2, 12.8.2.2).
"""

from collections.abc import Iterable
from typing import Any, Final
from xml.etree import ElementTree

from pyhanko.pdf_utils.decode_limits import DecodePurpose
from pyhanko.pdf_utils.reader import HistoricalResolver
from pyhanko.sign.diff_analysis import (
    CatalogModificationRule,
    DocInfoRule,
    DSSCompareRule,
    FormUpdatingRule,
    MetadataUpdateRule,
    ModificationLevel,
    ObjectStreamRule,
    ReferenceUpdate,
    SigFieldCreationRule,
    SigFieldModificationRule,
    StandardDiffPolicy,
    SuspiciousModification,
    XrefStreamRule,
)
from pyhanko.sign.fields import MDPPerm, enumerate_sig_fields

from tracksworn.records.verifying.accounted import check_bytes
from tracksworn.records.verifying.sealed import Broken, Sealed
from tracksworn.records.verifying.touched import touched

_CLOCKED: Final = frozenset(["/ModDate", "/Producer"])
_CLOCKED_XMP: Final = ("}ModifyDate", "}MetadataDate", "}Producer", "}xmptk")
_ROOT: Final = frozenset(["/AcroForm", "/DSS", "/Extensions", "/Metadata"])


def check_appended(sealed: Sealed) -> tuple[str, ...]:
    """What was appended, in words. Raises Broken for anything that the seal does not allow."""
    if len(sealed.part) == len(sealed.content):
        return ()
    allowed = sealed.seal.docmdp_level
    room = 1 if allowed == MDPPerm.FILL_FORMS else 0
    if len(sealed.later) > room:
        raise Broken("a second signature was added, for which its seal left no room")
    left = {name for name, _, _ in enumerate_sig_fields(sealed.alone, filled_status=False)}
    if any(one.field_name not in left for one in sealed.later):
        raise Broken("a second signature was added, beside the room that its seal left")
    _check_revisions(sealed, ModificationLevel.FORM_FILLING if sealed.later else ModificationLevel.LTA_UPDATES)
    check_bytes(sealed)
    found = ["a countersignature"] * len(sealed.later) + ["an archive timestamp"] * len(sealed.stamps)
    if "/DSS" in sealed.reader.root:
        found.append("certificates and revocation data")
    return tuple(found)


class _Changed(SuspiciousModification):
    """What was changed, in words of ours."""


class _InfoRule(DocInfoRule):
    """The information about the document says the same but for when and by what it was last written."""

    def apply(self, old: HistoricalResolver, new: HistoricalResolver) -> Iterable[ReferenceUpdate]:
        before, after = (_but(_info(one), _CLOCKED) for one in (old, new))
        if before != after:
            raise _Changed("the information about the document was changed")
        yield from super().apply(old, new)


class _MetadataRule(MetadataUpdateRule):
    """So does its XMP."""

    def apply(self, old: HistoricalResolver, new: HistoricalResolver) -> Iterable[ReferenceUpdate]:
        if _xmp(old) != _xmp(new):
            raise _Changed("the metadata were changed")
        yield from super().apply(old, new)


def _policy() -> StandardDiffPolicy:
    metadata = _MetadataRule(check_xml_syntax=False)  # type: ignore[no-untyped-call]
    rules = (_InfoRule(), XrefStreamRule(), ObjectStreamRule(), DSSCompareRule(), metadata)
    return StandardDiffPolicy(
        global_rules=[
            CatalogModificationRule(ignored_keys=_ROOT),  # type: ignore[no-untyped-call]
            *(rule.as_qualified(ModificationLevel.LTA_UPDATES) for rule in rules),
        ],
        form_rule=FormUpdatingRule(
            field_rules=[
                SigFieldCreationRule(),  # type: ignore[no-untyped-call]
                SigFieldModificationRule(),
            ]
        ),
        ignore_orphaned_objects=False,
        ignore_identical_objects=False,
    )


def _check_revisions(sealed: Sealed, most: ModificationLevel) -> None:
    first = sealed.seal.signed_revision
    if sealed.reader.total_revisions <= first + 1:
        raise Broken("something was appended to it")
    signed = {one.signed_revision for one in sealed.everything}
    policy = _policy()
    for number in range(first + 1, sealed.reader.total_revisions):
        old, new = (sealed.reader.get_historical_resolver(each) for each in (number - 1, number))
        try:
            result = policy.apply(old, new, doc_mdp=sealed.seal.docmdp_level)
        except _Changed as error:
            raise Broken(f"it was changed after it was sealed: {error}") from error
        except SuspiciousModification as error:
            raise Broken(f"it was changed after it was sealed: {touched(sealed, number)}") from error
        if result.modification_level > (most if number in signed else ModificationLevel.LTA_UPDATES):
            raise Broken(f"it was changed after it was sealed: {touched(sealed, number)}")
        if not _store(old) <= _store(new):
            raise Broken("certificates or revocation data were taken away after it was sealed")
        if number not in signed and _store(old) == _store(new):
            raise Broken("it was changed after it was sealed, with nothing that its seal allows")


def _store(revision: HistoricalResolver) -> frozenset[str]:
    """Which certificates and revocation data a revision has."""
    store = revision.root["/DSS"] if "/DSS" in revision.root else {}  # noqa: SIM401 - `get` would not follow it
    return frozenset(f"{key} {one}" for key in ("/Certs", "/CRLs", "/OCSPs") if key in store for one in store[key])


def _info(revision: HistoricalResolver) -> Any:
    reference = revision.trailer_view.get_value_as_reference("/Info", optional=True)
    return {} if reference is None else _as_of(revision, reference)


def _as_of(revision: HistoricalResolver, reference: Any) -> Any:
    """What an object was in that revision, not what it is now."""
    return revision.reader.get_object(reference, revision=revision.revision)  # type: ignore[no-untyped-call]


def _but(dictionary: Any, keys: frozenset[str]) -> dict[str, str]:
    return {str(key): str(value) for key, value in dictionary.items() if key not in keys}


def _xmp(revision: HistoricalResolver) -> list[tuple[str, str]]:
    """What the metadata say, element by element, but for when and by what they were last written."""
    if "/Metadata" not in revision.root:
        return []
    held = _as_of(revision, revision.root.get_value_as_reference("/Metadata"))
    try:
        tree = ElementTree.fromstring(held.read_data(DecodePurpose.XMP_METADATA))  # noqa: S314 - expat bounds entities
    except ElementTree.ParseError as error:
        raise _Changed("the metadata cannot be read") from error
    said = [(one.tag, (one.text or "").strip()) for one in tree.iter()]
    said += [attribute for one in tree.iter() for attribute in one.attrib.items()]
    return sorted((name, text) for name, text in said if not name.endswith(_CLOCKED_XMP))
