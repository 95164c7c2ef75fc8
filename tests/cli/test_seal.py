"""`tracksworn key new` and `tracksworn seal` as a user meets them: what is written, said, and left alone."""

import errno
import os
import stat
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from asn1crypto import pem
from cli.conftest import DEMO, GOOD, Run, Start, copied
from records import authorities, softhsm
from records.sealed import AT, sealed

from tracksworn.cli.passwords import VARIABLE
from tracksworn.inspection.faults import Failed, WrongUse
from tracksworn.records.sealing.keeping import keep
from tracksworn.records.sealing.pkcs12 import from_pkcs12
from tracksworn.records.sealing.practice import practice_key
from tracksworn.records.sealing.signer import Level

PASSWORD = authorities.PASSWORD


@pytest.fixture
def keys(tmp_path: Path) -> Path:
    """A folder with keys of the invented authority."""
    folder = tmp_path / "keys"
    folder.mkdir()
    for name in ("signer", "client", "expired", "wrong-usage"):
        (folder / f"{name}.p12").write_bytes(authorities.packed(name))
    return folder


def seal(tracksworn: Run, *words: str | Path, password: str = PASSWORD) -> tuple[int, str, str]:
    done = tracksworn("seal", *words, **{VARIABLE: password})
    return done.returncode, done.stdout, done.stderr


def test_a_new_key_is_its_owners_alone_and_says_what_it_is_not(tracksworn: Run, tmp_path: Path) -> None:
    done = tracksworn("key", "new", "--to", "a/practice.p12", "--name", "Ines Marlow", **{VARIABLE: "secret words"})
    assert (done.returncode, done.stdout) == (0, "a/practice.p12\na/practice.pem\n")
    assert stat.S_IMODE((tmp_path / "a/practice.p12").stat().st_mode) == 0o600
    assert stat.S_IMODE((tmp_path / "a/practice.pem").stat().st_mode) == 0o644
    assert "Nobody vouches for the name in it" in done.stderr
    assert "secret" not in done.stdout + done.stderr
    assert {each.name for each in (tmp_path / "a").iterdir()} == {"practice.p12", "practice.pem"}


@pytest.mark.parametrize(
    ("words", "there", "said"),
    [
        (("--to", "a.p12"), "a.p12", "a.p12 is there already, and a key is never written over"),
        (("--to", "a.p12"), "a.pem", "a.pem is there already, and a key is never written over"),
        (("--to", "b.pem"), "", "name the key FILE.p12"),
        (("--to", "b"), "b.pem", "b.pem is there already"),
        (("--to", "b.p12", "--name", "x" * 65), "", "1 to 64 characters"),
        (("--to", "b.p12", "--name", " "), "", "1 to 64 characters"),
    ],
)
def test_a_key_takes_no_others_place(
    words: tuple[str, ...], there: str, said: str, tracksworn: Run, tmp_path: Path
) -> None:
    if there:
        (tmp_path / there).write_text("before")
    done = tracksworn("key", "new", *words, **{VARIABLE: "x"})
    assert done.returncode == 2
    assert said in done.stderr
    assert {each.name: each.read_text() for each in tmp_path.iterdir()} == ({there: "before"} if there else {})


@pytest.mark.parametrize(("to", "there"), [("a.p12", "a.p12"), ("a.p12", "a.pem"), ("b.pem", "")])
def test_a_key_for_which_there_is_no_place_needs_no_password(
    to: str, there: str, tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)
    if there:
        (tmp_path / there).write_text("before")
    done = tracksworn("key", "new", "--to", to, "--password-fd", "987")
    assert done.returncode == 2
    assert "987" not in done.stderr


@pytest.mark.parametrize("to", ["letter/a.p12", "letter/keys/a.p12"])
def test_a_key_goes_into_no_file(to: str, tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "letter").write_text("mine")
    done = tracksworn("key", "new", "--to", to, **{VARIABLE: "x"})
    said = "wrong use: letter is no folder, and no key can be put into it; name another place\n"
    assert (done.returncode, done.stderr) == (2, said)
    assert [each.name for each in tmp_path.iterdir()] == ["letter"]


def without_links(code: int) -> Callable[..., None]:
    """What a disk answers that knows no links: FAT, and some of a network."""

    def refused(old: str, new: Path) -> None:
        raise OSError(code, os.strerror(code), old, None, str(new))

    return refused


@pytest.mark.parametrize("code", [errno.EPERM, errno.ENOTSUP], ids=errno.errorcode.get)
def test_a_key_is_kept_on_a_disk_without_links(
    code: int, tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "link", without_links(code))
    assert tracksworn("key", "new", "--to", "a.p12", **{VARIABLE: "x"}).returncode == 0
    from_pkcs12((tmp_path / "a.p12").read_bytes(), "x")
    assert stat.S_IMODE((tmp_path / "a.p12").stat().st_mode) == 0o600
    assert {each.name for each in tmp_path.iterdir()} == {"a.p12", "a.pem"}


def test_on_a_disk_without_links_a_key_takes_no_others_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Somebody comes between: the name is taken after it was looked up."""

    def come_between(old: str, new: Path) -> None:
        if Path(new).suffix == ".p12":
            Path(new).write_text("theirs")
        without_links(errno.EPERM)(old, new)

    monkeypatch.setattr(os, "link", come_between)
    with pytest.raises(WrongUse, match=r"a\.p12 is there already"):
        keep(practice_key("Practice", "x", AT), tmp_path / "a.p12")
    assert {each.name: each.read_text() for each in tmp_path.iterdir()} == {"a.p12": "theirs"}


def test_on_a_disk_without_links_that_is_full_no_name_is_left_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(self: Path, _: Path) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(self))

    monkeypatch.setattr(os, "link", without_links(errno.EPERM))
    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(Failed, match="No space left on device"):
        keep(practice_key("Practice", "x", AT), tmp_path / "a.p12")
    assert list(tmp_path.iterdir()) == []


def test_a_disk_that_lets_everybody_read_keeps_no_key(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As FAT does: one answer for all its files, and no other is taken."""
    allowed = os.fchmod

    def refused(handle: int, _: int) -> None:
        allowed(handle, 0o755)
        raise PermissionError(errno.EPERM, os.strerror(errno.EPERM))

    monkeypatch.setattr(os, "fchmod", refused)
    with pytest.raises(
        Failed, match=r"keeps no file to its owner alone, and a key needs that; name a place on another"
    ):
        keep(practice_key("Practice", "x", AT), tmp_path / "new" / "a.p12")
    assert list((tmp_path / "new").iterdir()) == []


@pytest.mark.parametrize("number", [1, 2])
def test_an_interrupt_while_a_key_is_written_leaves_neither_file(
    number: int, tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    linked = []

    def interrupted(old: str, new: Path) -> None:
        linked.append(new)
        if len(linked) == number:
            raise KeyboardInterrupt
        Path(new).hardlink_to(old)

    monkeypatch.setattr(os, "link", interrupted)
    done = tracksworn("key", "new", "--to", "a.p12", **{VARIABLE: "x"})
    assert (done.returncode, done.stdout) == (130, "")
    assert list(tmp_path.iterdir()) == []


def test_without_a_terminal_and_a_variable_there_is_nobody_to_ask(process: Start, tmp_path: Path) -> None:
    done = process("key", "new", "--to", "a.p12", first=f"import os; os.environ.pop({VARIABLE!r}, None)")
    assert done.returncode == 2
    assert f"no terminal to ask at: set {VARIABLE}, or use --password-fd" in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_an_empty_password_is_none(tracksworn: Run) -> None:
    done = tracksworn("key", "new", "--to", "a.p12", **{VARIABLE: ""})
    assert done.returncode == 2
    assert "is empty" in done.stderr


@pytest.fixture
def descriptor() -> Iterator[int]:
    """A pipe with a password of two lines, of which the first counts."""
    reading, writing = os.pipe()
    os.write(writing, f"{PASSWORD}\r\nnot this\n".encode())
    os.close(writing)
    yield reading
    os.close(reading)


@pytest.mark.slow
def test_a_password_may_come_by_a_file_descriptor(
    tracksworn: Run, keys: Path, descriptor: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)
    words = ("seal", GOOD, "--document", "listing", "--key", keys / "signer.p12", "--to", "out")
    done = tracksworn(*words, "--password-fd", str(descriptor))
    assert done.returncode == 0, done.stderr


def test_a_descriptor_that_is_not_open_is_wrong_use(tracksworn: Run, keys: Path) -> None:
    done = tracksworn("seal", GOOD, "--key", keys / "signer.p12", "--to", "out", "--password-fd", "987")
    assert done.returncode == 2
    assert "file descriptor 987 cannot be read for a password" in done.stderr


def test_a_password_has_no_place_on_the_command_line(tracksworn: Run) -> None:
    for command in (("seal",), ("key", "new")):
        said = tracksworn(*command, "--help").stdout
        assert "--password-fd" in said
        assert "--password " not in said


@pytest.mark.slow
def test_a_sealed_document_and_its_countersignature(tracksworn: Run, keys: Path, tmp_path: Path) -> None:
    name = "OXB-0231-r0-listing.pdf"
    made = seal(tracksworn, GOOD, "--document", "listing", "--key", keys / "signer.p12", "--to", "a", "--countersign")
    assert made == (
        0,
        f"a/{name}\n",
        "No authority attests the time: when it was sealed rests on this machine's clock.\n",
    )
    both = seal(tracksworn, f"a/{name}", "--key", keys / "client.p12", "--to", "b")
    assert both[:2] == (0, f"b/{name}\n")
    assert (tmp_path / "b" / name).read_bytes().startswith((tmp_path / "a" / name).read_bytes())
    again = seal(tracksworn, f"b/{name}", "--key", keys / "client.p12", "--to", "c")
    assert again[0] == 1
    assert "no room for a countersignature" in again[2]
    assert not (tmp_path / "c").exists()
    text = subprocess.run(["pdftotext", "-raw", f"a/{name}", "-"], capture_output=True, text=True, check=True).stdout
    assert "not sealed" not in text
    assert "sealed file" in text


@pytest.mark.slow
def test_an_authoritys_time_is_asked_for(tracksworn: Run, keys: Path) -> None:
    words = (
        GOOD,
        "--document",
        "listing",
        "--key",
        keys / "signer.p12",
        "--to",
        "out",
        "--timestamp",
        authorities.TIME,
    )
    with authorities.answering():
        assert seal(tracksworn, *words)[::2] == (0, "")


@pytest.mark.slow
def test_an_authority_out_of_reach_is_a_failure_and_leaves_nothing(tracksworn: Run, keys: Path, tmp_path: Path) -> None:
    words = (GOOD, "--document", "listing", "--key", keys / "signer.p12", "--to", "out")
    status, out, said = seal(tracksworn, *words, "--timestamp", "http://127.0.0.1:9/")
    assert (status, out) == (3, "")
    assert (
        said
        == "the timestamping authority http://127.0.0.1:9/ gives no timestamp: no connection to it; nothing is sealed\n"
    )
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("key", "password", "said"),
    [
        ("signer", "wrong", "the password is wrong for this key"),
        ("expired", PASSWORD, "it expired on 2021-01-01 00:00 UTC"),
        ("wrong-usage", PASSWORD, "neither digital signature nor content commitment"),
    ],
)
def test_an_unusable_key_is_a_fault_and_leaves_nothing(
    key: str, password: str, said: str, tracksworn: Run, keys: Path, tmp_path: Path
) -> None:
    made = seal(tracksworn, GOOD, "--key", keys / f"{key}.p12", "--to", "out", password=password)
    assert made[:2] == (1, "")
    assert said in made[2]
    assert made[2].count("\n") == 1
    assert not (tmp_path / "out").exists()


def test_what_is_no_key_file_is_a_fault(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "a.p12").write_text("no key")
    made = seal(tracksworn, GOOD, "--key", "a.p12", "--to", "out")
    assert made == (1, "", "this is no PKCS#12 file (.p12 or .pfx); `tracksworn key new` makes one to practise with\n")


def test_faults_of_the_inspection_are_told_and_nothing_is_sealed(tracksworn: Run, keys: Path, tmp_path: Path) -> None:
    folder = copied(tmp_path / "mine", "number:", "numbr:")
    made = seal(tracksworn, folder, "--key", keys / "signer.p12", "--to", "out")
    assert made[0] == 1
    assert "did you mean `number`" in made[2]
    assert not (tmp_path / "out").exists()


def test_a_certificate_needs_terms(tracksworn: Run, keys: Path) -> None:
    made = seal(tracksworn, GOOD, "--key", keys / "signer.p12", "--to", "out", "--document", "certificate")
    assert made[0] == 1
    assert "there is no certificate without terms" in made[2]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "name one key"),
        (("--key", "a.p12", "--pkcs11", "pkcs11:token=a"), "name one key"),
        (("--key", "a.p12", "--level", "t"), "level t needs a timestamping authority"),
        (("--key", "a.p12", "--level", "b", "--timestamp", authorities.TIME), "level b holds no timestamp"),
        (("--key", "a.p12", "--timestamp", "authority"), "no address of a timestamping authority"),
        (("--key", "a.p12", "--trust", "root.pem"), "--trust is for levels lt and lta"),
        (("--pkcs11", "pkcs11:token=a?module-path=/a.so&pin-value=1"), "PIN does not belong into its URI"),
    ],
)
def test_wrong_use_is_told_before_anything_is_asked(words: tuple[str, ...], said: str, tracksworn: Run) -> None:
    status, out, told = seal(tracksworn, GOOD, "--to", "out", *words)
    assert (status, out) == (2, "")
    assert said in told


@pytest.mark.parametrize("words", [("--document", "full"), ("--countersign",), ("--language", "de"), ("--paper", "A4")])
def test_a_sealed_file_is_countersigned_as_it_is(words: tuple[str, ...], tracksworn: Run) -> None:
    status, _, said = seal(tracksworn, "a.pdf", "--key", "a.p12", "--to", "out", *words)
    assert status == 2
    assert "countersigned as it is" in said


def test_no_long_term_level_for_a_countersignature(tracksworn: Run) -> None:
    words = ("--key", "a.p12", "--to", "out", "--timestamp", authorities.TIME, "--level", "lt")
    status, _, said = seal(tracksworn, "a.pdf", *words)
    assert status == 2
    assert "level b or t" in said


def test_a_root_that_is_no_certificate_is_told_at_its_file(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "root.pem").write_text("no certificate")
    words = ("--key", "a.p12", "--to", "out", "--timestamp", authorities.TIME, "--level", "lt", "--trust", "root.pem")
    status, _, said = seal(tracksworn, DEMO / "OXB-0231", *words)
    assert status == 1
    assert said == "root.pem:1:1: this is no certificate in PEM; it begins with -----BEGIN CERTIFICATE-----\n"


def test_a_sealed_file_is_renewed_without_a_key(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(sealed(Level.LTA))
    (tmp_path / "root.pem").write_bytes(pem.armor("CERTIFICATE", authorities.certificate("root")))
    with authorities.answering():
        words = ("a.pdf", "--renew", "--timestamp", authorities.TIME, "--trust", "root.pem", "--to", "out")
        assert seal(tracksworn, *words) == (0, "out/a.pdf\n", "")
    assert (tmp_path / "out/a.pdf").read_bytes().startswith(sealed(Level.LTA))


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((str(GOOD), "--timestamp", authorities.TIME, "--trust", "root.pem"), "only a sealed PDF is renewed"),
        (("a.pdf", "--trust", "root.pem"), "--renew needs --timestamp"),
        (("a.pdf", "--timestamp", authorities.TIME), "and with --trust the roots"),
        (("a.pdf", "--timestamp", authorities.TIME, "--trust", "root.pem", "--key", "a.p12"), "leave out key"),
        (("a.pdf", "--timestamp", authorities.TIME, "--trust", "root.pem", "--language", "de"), "leave out key"),
        (("a.pdf", "--timestamp", authorities.TIME, "--trust", "root.pem", "--password-fd", "0"), "leave out key"),
    ],
)
def test_what_does_not_go_with_renewing_is_wrong_use(words: tuple[str, ...], said: str, tracksworn: Run) -> None:
    status, _, told = seal(tracksworn, *words, "--renew", "--to", "out")
    assert status == 2
    assert said in told


@pytest.mark.slow
def test_a_key_on_a_token_seals(tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "token").mkdir()
    uri = f"pkcs11:token={softhsm.LABEL};object=curve{softhsm.token()}"
    words = (GOOD, "--document", "listing", "--pkcs11", uri, "--to", "out")
    assert seal(tracksworn, *words, password=softhsm.PIN)[:2] == (0, "out/OXB-0231-r0-listing.pdf\n")
    assert seal(tracksworn, *words, password="0000")[::2] == (
        1,
        "the PIN is wrong for the token 'Oxbow'; it locks itself after a few wrong ones\n",
    )
