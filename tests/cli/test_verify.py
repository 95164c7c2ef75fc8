"""`tracksworn verify` as a user meets it."""

import json
from pathlib import Path

import pytest
from cli.conftest import Run
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding
from judges.specimen import sound
from records import authorities
from records.sealed import AT, sealed
from records.verifying.recorded import NUMBER, carried_by, document

from tracksworn.records.archive.archive import Archive
from tracksworn.records.verifying.verdict import Name


@pytest.fixture
def files(tmp_path: Path) -> Path:
    """A sealed sheet, one that is not sealed, and a root to trust."""
    (tmp_path / "sealed.pdf").write_bytes(sealed())
    (tmp_path / "plain.pdf").write_bytes(sound())
    root = x509.load_der_x509_certificate(authorities.certificate("root"))
    (tmp_path / "root.pem").write_bytes(root.public_bytes(Encoding.PEM))
    return tmp_path


def test_an_unsealed_file_does_not_pass(tracksworn: Run, files: Path) -> None:
    done = tracksworn("verify", "plain.pdf", "--trust", "root.pem")
    assert (done.returncode, done.stderr) == (1, "")
    first, *table = done.stdout.splitlines()
    assert first == (
        "plain.pdf: not passed (integrity failed, signer cannot tell, time cannot tell, arithmetic cannot tell, "
        "pages cannot tell, archive cannot tell); integrity: it bears no signature"
    )
    assert [line.split()[0] for line in table] == [str(name) for name in Name]


def test_of_several_each_has_its_line_and_all_are_counted(tracksworn: Run, files: Path) -> None:
    done = tracksworn("verify", "sealed.pdf", "plain.pdf", "--trust", "root.pem")
    assert (done.returncode, done.stderr) == (1, "")
    lines = done.stdout.splitlines()
    assert [line.partition(":")[0] for line in lines[:2]] == ["sealed.pdf", "plain.pdf"]
    assert [line.split() for line in lines[3:5]] == [["integrity", "1", "1", "0"], ["signer", "1", "0", "1"]]


def test_as_json_each_is_named_as_it_was_given(tracksworn: Run, files: Path) -> None:
    done = tracksworn("verify", "./sealed.pdf", str(files / "plain.pdf"), "--json")
    assert done.returncode == 1
    told = json.loads(done.stdout)
    assert [one["file"] for one in told] == ["./sealed.pdf", str(files / "plain.pdf")]
    assert [one["integrity"] for one in told] == ["passed", "failed"]
    assert list(told[0]) == ["file", *map(str, Name), "why"]


def test_a_file_that_is_not_there_fails_and_the_others_are_verified(tracksworn: Run, files: Path) -> None:
    done = tracksworn("verify", "none.pdf", "plain.pdf")
    assert done.returncode == 3
    assert done.stderr == "none.pdf cannot be read: No such file or directory\n"
    assert "plain.pdf: not passed" in done.stdout


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        ((), 2, "Missing argument"),
        (("",), 2, "the name of a file is missing"),
        (("sealed.pdf", "--trust", "plain.pdf"), 1, "plain.pdf:1:1: this is no certificate in PEM"),
        (("sealed.pdf", "--trust", "none.pem"), 3, "none.pem"),
    ],
)
def test_what_is_asked_wrongly_is_told(
    words: tuple[str, ...], status: int, said: str, tracksworn: Run, files: Path
) -> None:
    done = tracksworn("verify", *words)
    assert done.returncode == status
    assert said in done.stderr


@pytest.mark.slow
def test_nothing_that_a_file_says_acts_on_the_terminal(tracksworn: Run, files: Path) -> None:
    assessment = carried_by(NUMBER)["assessment.json"].rstrip(b"}\n") + b', "\\u001b[2Jgone": 1}'
    (files / "record.pdf").write_bytes(document((("assessment.json", assessment),)))
    done = tracksworn("verify", "record.pdf")
    assert done.returncode == 1
    assert "\x1b" not in done.stdout
    assert "\\x1b[2Jgone is 1 there" in done.stdout


@pytest.mark.slow
def test_a_sealed_document_passes_and_the_archive_knows_it(tracksworn: Run, files: Path) -> None:
    (files / "record.pdf").write_bytes(document())
    Archive.open(files / "archive", new=True, clock=lambda: AT).add(document())
    done = tracksworn("verify", "record.pdf", "--trust", "root.pem", "--archive", "archive")
    assert (done.returncode, done.stderr) == (0, "")
    assert "record.pdf: passed (integrity passed, signer passed, " in done.stdout
    assert "archive passed" in done.stdout
