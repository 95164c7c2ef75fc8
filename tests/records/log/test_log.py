"""The log on disk: what counts, and what gives an alteration away."""

import json
import stat
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from tracksworn.records.disk import Disk
from tracksworn.records.log.checkpoint import LogBroken, private_pem, public_pem, read_checkpoint
from tracksworn.records.log.log import ACTS, CHECKPOINT, KEY, PUBLIC, Entry, Log
from tracksworn.records.log.tree import is_consistent, is_included, leaf_hash

AT = "2031-04-19T10:00:00Z"


def log_of(folder: Path, count: int) -> Log:
    log = Log(folder, Disk())
    log.begin(AT)
    if count:
        log.append([f'{{"act":{number}}}'.encode() for number in range(count)], AT)
    return log


def test_acts_come_back_as_they_went_in(tmp_path: Path) -> None:
    log = log_of(tmp_path, 3)
    log.append([b'{"act":"later"}'], AT)
    assert [entry.content for entry in log.entries()] == [b'{"act":0}', b'{"act":1}', b'{"act":2}', b'{"act":"later"}']
    assert [entry.position for entry in log.entries()] == [0, 1, 2, 3]
    third = list(log.entries())[2]
    assert log.at(third.position, third.offset) == third
    assert log.check() == (log.checkpoint(), None)
    assert log.checkpoint().size == 4


def test_a_log_that_is_begun_again_stays_as_it_is(tmp_path: Path) -> None:
    log = log_of(tmp_path, 3)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    log.begin("2032-01-01T00:00:00Z")
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_the_key_is_for_its_owner_alone(tmp_path: Path) -> None:
    log_of(tmp_path, 0)
    assert stat.S_IMODE((tmp_path / KEY).stat().st_mode) == 0o600


def test_what_was_never_finished_does_not_count(tmp_path: Path) -> None:
    log = log_of(tmp_path, 2)
    with (tmp_path / ACTS).open("ab") as file:
        file.write(b'{"act":"half')
    assert len(list(log.entries())) == 2
    log.append([b'{"act":"whole"}'], AT)
    assert [entry.content for entry in log.entries()][2:] == [b'{"act":"whole"}']
    assert log.check()[1] is None


@pytest.mark.parametrize("size", [1, 2, 7, 8, 13])
def test_an_act_is_shown_to_be_in_the_log(tmp_path: Path, size: int) -> None:
    log = log_of(tmp_path, size)
    for entry in log.entries():
        proof = log.proof(entry)
        path, root = [bytes.fromhex(node) for node in proof["path"]], bytes.fromhex(proof["root"])
        assert is_included(leaf_hash(proof["act"].encode()), proof["position"], proof["size"], path, root)
        signed = json.dumps(proof["checkpoint"]).encode()
        assert read_checkpoint(signed, log.signing_key().public_key()).root == proof["root"]


def test_a_log_is_shown_to_have_only_grown(tmp_path: Path) -> None:
    log = log_of(tmp_path, 5)
    earlier = log.checkpoint()
    log.append([b'{"act":"later"}'] * 6, AT)
    growth = log.growth(earlier)
    first, second = (bytes.fromhex(growth[end]["root"]) for end in ("from", "to"))
    assert is_consistent(5, first, 11, second, [bytes.fromhex(node) for node in growth["path"]])


def test_from_an_empty_log_anything_is_growth(tmp_path: Path) -> None:
    log = log_of(tmp_path, 0)
    earlier = log.checkpoint()
    log.append([b"{}"], AT)
    assert log.growth(earlier)["path"] == []


def test_a_log_that_was_begun_anew_did_not_grow(tmp_path: Path) -> None:
    earlier = log_of(tmp_path / "one", 5).checkpoint()
    other = Log(tmp_path / "other", Disk())
    other.begin(AT)
    other.append([b'{"act":"another"}'] * 9, AT)
    with pytest.raises(LogBroken, match="acts were taken back or altered"):
        other.growth(earlier)


def test_an_altered_act_is_found(tmp_path: Path) -> None:
    log = log_of(tmp_path, 4)
    whole = (tmp_path / ACTS).read_bytes()
    (tmp_path / ACTS).write_bytes(whole.replace(b'{"act":2}', b'{"act":7}'))
    assert log.check()[1] == "the log's acts are not those of its checkpoint; the log was altered"
    with pytest.raises(LogBroken, match="the log was altered"):
        log.proof(next(log.entries()))


def test_a_lost_act_is_found(tmp_path: Path) -> None:
    log = log_of(tmp_path, 4)
    whole = (tmp_path / ACTS).read_bytes()
    (tmp_path / ACTS).write_bytes(whole[:-10])
    with pytest.raises(LogBroken, match="the log has lost acts"):
        log.checkpoint()


def test_two_lines_run_together_are_found(tmp_path: Path) -> None:
    log = log_of(tmp_path, 4)
    whole = (tmp_path / ACTS).read_bytes()
    (tmp_path / ACTS).write_bytes(whole[:-1] + b" ")
    assert log.check()[1] == "act 3 of the log does not end where it did; the log was altered"


@pytest.mark.parametrize("key", ["size", "length", "root", "peaks", "at", "signature", "tracksworn"])
def test_a_checkpoint_with_anything_altered_is_refused(tmp_path: Path, key: str) -> None:
    log = log_of(tmp_path, 4)
    plain = json.loads((tmp_path / CHECKPOINT).read_bytes())
    plain[key] = {"size": 3, "length": 1, "root": "00" * 32, "peaks": ["00" * 32], "signature": "AAAA"}.get(key)
    (tmp_path / CHECKPOINT).write_text(json.dumps(plain), encoding="ascii")
    with pytest.raises(LogBroken, match="altered"):
        log.checkpoint()


@pytest.mark.parametrize(
    "content", [b"", b"[]", b"[" * 100_000, b'{"size": Infinity, "peaks": []}', b'{"size": -1, "peaks": []}']
)
def test_what_is_no_checkpoint_is_told_to_be_none(tmp_path: Path, content: bytes) -> None:
    log = log_of(tmp_path, 1)
    with pytest.raises(LogBroken, match="the older checkpoint is none of this log"):
        log.growth_since(content)
    (tmp_path / CHECKPOINT).write_bytes(content)
    with pytest.raises(LogBroken, match="the log's checkpoint is no checkpoint; it was altered"):
        log.checkpoint()


def test_growth_since_a_checkpoint_of_another_log_is_not_shown(tmp_path: Path) -> None:
    log, other = log_of(tmp_path / "one", 2), log_of(tmp_path / "other", 1)
    with pytest.raises(LogBroken, match="give one as `archive checkpoint` printed it"):
        log.growth_since(other.checkpoint().json())
    assert log.growth_since(log.checkpoint().json())["from"]["size"] == 2


@pytest.mark.parametrize("content", [b"[", b"[]", b"[" * 100_000])
def test_an_act_that_is_none_is_told(content: bytes) -> None:
    with pytest.raises(LogBroken, match="act 7 of the log is no act"):
        Entry(7, 0, content).plain()


def test_a_checkpoint_by_another_key_is_refused(tmp_path: Path) -> None:
    log = log_of(tmp_path, 1)
    (tmp_path / PUBLIC).write_bytes(public_pem(Ed25519PrivateKey.generate().public_key()))
    with pytest.raises(LogBroken, match="not signed with the log's key"):
        Log(log.folder, Disk()).checkpoint()


def test_a_key_that_is_none_is_told(tmp_path: Path) -> None:
    log = log_of(tmp_path, 1)
    (tmp_path / KEY).write_bytes(b"no key")
    with pytest.raises(
        LogBroken, match=r"key\.pem: the log's key cannot be read; it was altered; if it lies elsewhere"
    ):
        log.append([b"{}"], AT)
    with pytest.raises(LogBroken, match=r"key\.pem: the log's key cannot be read"):
        Log(tmp_path / "new", Disk(), tmp_path / KEY).begin(AT)
    (tmp_path / KEY).write_bytes(private_pem(Ed25519PrivateKey.generate()))
    (tmp_path / PUBLIC).write_bytes(b"no key")
    with pytest.raises(LogBroken, match="the log's public key cannot be read"):
        Log(log.folder, Disk()).checkpoint()


def test_a_signature_can_be_checked_by_the_standard_alone(tmp_path: Path) -> None:
    # RFC 8032 by another library; the signed bytes are the RFC 8785 form of everything but the signature.
    import base64

    import rfc8785

    log = log_of(tmp_path, 3)
    plain = json.loads((tmp_path / CHECKPOINT).read_bytes())
    signature = base64.b64decode(plain.pop("signature"))
    log.signing_key().public_key().verify(signature, rfc8785.dumps(plain))
