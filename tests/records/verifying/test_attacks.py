"""No altered file passes, whatever was done to it; each fails by name."""

import hashlib
import random
import re
from collections.abc import Callable, Iterator
from io import BytesIO
from typing import Final

import pytest
from asn1crypto import cms
from pyhanko.pdf_utils.reader import PdfFileReader
from records import authorities
from records.sealed import AT, sealed
from records.verifying.attacks import ATTACKS, RANGES, countersigned, envelope, flipped, gap
from records.verifying.attacks_by_update import BY_UPDATE

from tracksworn.records.sealing.quiet import quiet
from tracksworn.records.sealing.signer import Level
from tracksworn.records.verifying.integrity import judge_integrity
from tracksworn.records.verifying.people import evidence_in
from tracksworn.records.verifying.signers import judge_signers
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import State

SEED: Final = 20310420
EVERY_ATTACK: Final = {**ATTACKS, **BY_UPDATE}


def said_of(content: bytes) -> str:
    """What is said of a file that must not pass: that it was altered, or that its signer is not known."""
    with quiet():
        answer, found = judge_integrity(content)
        if found is not None:
            root = Trust((authorities.certificate("root"),))
            answer = judge_signers(found, root, evidence_in(found), AT)
    assert answer.state is State.FAILED
    return answer.because


@pytest.mark.parametrize("name", EVERY_ATTACK)
def test_an_attack_fails_by_name(name: str) -> None:
    attack, expected = EVERY_ATTACK[name]
    with quiet():
        altered = attack(sealed())
    assert altered != sealed()
    assert re.search(expected, said_of(altered)), said_of(altered)


def digest_holds(content: bytes) -> bool:
    """By the standards alone (ISO 32000-2, 12.8.1; RFC 5652, 5.4): the bytes of the ranges have the digest signed."""
    found = RANGES.search(content)
    if found is None:
        return False
    try:
        first, length, second, rest = map(int, found[1].split())
    except ValueError:
        return False
    covered = content[first : first + length] + content[second : second + rest]
    return hashlib.sha256(covered).digest() == signed_digest(sealed())


def signed_digest(content: bytes) -> bytes:
    (signer,) = cms.ContentInfo.load(envelope(content))["content"]["signer_infos"]
    (digest,) = [one["values"][0].native for one in signer["signed_attrs"] if one["type"].native == "message_digest"]
    assert isinstance(digest, bytes)
    return digest


@pytest.mark.slow
def test_every_byte_counts_by_the_digest_alone() -> None:
    content, place = sealed(), gap(sealed())
    assert digest_holds(content)
    harmless = [at for at in range(len(content)) if digest_holds(flipped(content, at))]
    assert harmless == list(range(place.start, place.end))  # what stands there is the signature, judged below


def test_a_byte_of_every_object_and_stream_counts() -> None:
    content = sealed()
    reader = PdfFileReader(BytesIO(content))
    places = [place for at in range(reader.total_revisions) for place in objects_of(reader, at)]
    streams = [
        found.end() + 1 for found in re.finditer(rb"stream\r?\n", content) if content[found.start() - 3 :][:3] != b"end"
    ]
    assert len(places) > 15
    assert len(streams) > 5
    for place in [*(place + 4 for place in places), *streams]:
        assert not digest_holds(flipped(content, place))
        said_of(flipped(content, place))


def objects_of(reader: PdfFileReader, revision: int) -> Iterator[int]:
    for ref in reader.xrefs.explicit_refs_in_revision(revision):
        place = reader.xrefs.get_historical_ref(ref, revision)
        if isinstance(place, int):
            yield place


def structure(content: bytes) -> list[int]:
    """Every byte of the signature's dictionary but the signature, of the last table of objects, and of the trailer."""
    place = gap(content)
    begins = content.rindex(b" obj", 0, place.start)
    ends = content.index(b"endobj", place.end)
    table = int(content[content.rindex(b"startxref") :].split()[1])
    return [*range(begins, place.start), *range(place.end, ends), *range(table, len(content))]


@pytest.mark.slow
def test_every_byte_of_signature_dictionary_table_and_trailer_flipped_fails() -> None:
    content = sealed()
    for at in structure(content):
        said_of(flipped(content, at))


@pytest.mark.long
def test_every_byte_of_the_signature_flipped_fails() -> None:
    content, place = sealed(), gap(sealed())
    used = place.start + 1 + 2 * len(envelope(content))
    for at in [*range(place.start, used), *range(used, place.end, 97), place.end - 1]:
        said_of(flipped(content, at))


@pytest.mark.long
def test_two_thousand_bytes_at_random_flipped_fail() -> None:
    content, chance = sealed(), random.Random(SEED)
    for _ in range(2000):
        said_of(flipped(content, chance.randrange(len(content)), 1 << chance.randrange(8)))


@pytest.mark.slow
@pytest.mark.parametrize(
    "content",
    [
        pytest.param(lambda: sealed(Level.LTA), id="lta", marks=pytest.mark.long),
        pytest.param(lambda: countersigned(b""), id="countersigned"),
    ],
)
def test_two_hundred_bytes_at_random_of_what_was_appended_flipped_fail(content: Callable[[], bytes]) -> None:
    whole, chance = content(), random.Random(SEED)
    with quiet():
        _, found = judge_integrity(whole)
    assert found is not None
    for _ in range(200):
        said_of(flipped(whole, chance.randrange(len(found.part), len(whole)), 1 << chance.randrange(8)))
