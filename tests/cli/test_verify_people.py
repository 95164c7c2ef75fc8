"""Whom `tracksworn verify` believes, as a clerk meets it: each certificate that is no good, and why in plain words."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from asn1crypto import pem
from cli.conftest import Run
from judges.specimen import sound
from records import authorities
from records.sealed import AT, sealed, signer
from records.verifying.test_people import by_one_who_may_not_issue, sealed_all_the_same, with_revocation_lists

from tracksworn.records.sealing.seal import seal
from tracksworn.records.sealing.signer import Level

IN_ITS_TIME = datetime(2020, 6, 1, tzinfo=UTC)


def answers(tracksworn: Run, folder: Path, content: bytes, *trusted: str) -> tuple[int, dict[str, Any]]:
    """The exit status, and the six answers with their reasons, as JSON."""
    (folder / "a.pdf").write_bytes(content)
    words = []
    for name in trusted:
        (folder / f"{name}.pem").write_bytes(pem.armor("CERTIFICATE", authorities.certificate(name)))
        words += ["--trust", f"{name}.pem"]
    done = tracksworn("verify", "a.pdf", *words, "--json")
    assert done.stderr == ""
    (told,) = json.loads(done.stdout)
    why = dict(one.split(": ", 1) for one in told["why"])
    return done.returncode, {name: (told[name], why[name]) for name in why}


@pytest.mark.parametrize(
    ("name", "at", "said"),
    [
        ("expired", IN_ITS_TIME, "it expired on 2021-01-01"),
        ("not-yet", AT, "it is not valid before 2080-01-01"),
        ("wrong-usage", AT, "neither digital signature nor content commitment"),
        ("weak", AT, "its RSA key has 1024 bits; 2048 are the least"),
    ],
)
def test_a_certificate_that_could_not_seal(
    name: str, at: datetime, said: str, tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = sealed_all_the_same(signer(name), monkeypatch, at)
    status, told = answers(tracksworn, tmp_path, content, "root")
    assert status == 1
    assert told["integrity"][0] == "passed"
    assert told["signer"][0] == "failed"
    assert said in told["signer"][1]


def test_a_certificate_over_a_weak_digest(tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    content = sealed_all_the_same(signer("of-old"), monkeypatch)
    status, told = answers(tracksworn, tmp_path, content, "root")
    assert status == 1
    assert told["integrity"] == (
        "failed",
        "a certificate that comes with its signature was signed over SHA1, which is weaker than SHA-256",
    )


def test_a_certificate_that_was_revoked(tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    content = with_revocation_lists(sealed_all_the_same(signer("revoked"), monkeypatch))
    _, told = answers(tracksworn, tmp_path, content, "root")
    assert told["signer"] == ("failed", "sealed by Ines Marlow, but a certificate was revoked on 2024-01-01")


def test_an_issuer_that_nobody_knows(tracksworn: Run, tmp_path: Path) -> None:
    _, told = answers(tracksworn, tmp_path, sealed(), "authority")
    assert told["signer"][0] == "failed"
    assert told["signer"][1].endswith("its certificate leads to none of those that are trusted")


def test_an_issuer_that_is_no_authority(tracksworn: Run, tmp_path: Path) -> None:
    _, told = answers(tracksworn, tmp_path, seal(sound(), by_one_who_may_not_issue(), at=AT), "root")
    assert told["signer"][0] == "failed"


def test_nobody_to_trust(tracksworn: Run, tmp_path: Path) -> None:
    status, told = answers(tracksworn, tmp_path, sealed(Level.T))
    assert status == 1
    assert [told[each][0] for each in ("integrity", "signer", "time")] == ["passed", "cannot tell", "cannot tell"]


def test_a_trusted_time_passes_and_one_that_nobody_attests_cannot_be_told(tracksworn: Run, tmp_path: Path) -> None:
    _, attested = answers(tracksworn, tmp_path, sealed(Level.T), "root")
    assert attested["time"][0] == "passed"
    assert attested["time"][1].endswith("as Time attests")
    _, said = answers(tracksworn, tmp_path, sealed(), "root")
    assert said["time"] == ("cannot tell", "nobody attests it; who sealed it says 2031-04-20 12:30:00 UTC")
