"""Files side by side: in their order, and one that ends its process harms no other."""

import errno
import os
import select
import signal
import subprocess
import sys
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

import pytest
from judges.specimen import sound
from records.sealed import AT, sealed

from tracksworn.records.standing import Bytes, Claim, Standing
from tracksworn.records.verifying import many
from tracksworn.records.verifying.many import Asked, Found, verify_all, verify_file
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import Answer, Name, State, Verdict

ASKED = Asked(Trust(), AT)


def written(folder: Path) -> list[str]:
    """A sealed file, one that is not, one that is not there, and the first again."""
    (folder / "sealed.pdf").write_bytes(sealed())
    (folder / "plain.pdf").write_bytes(sound())
    return [str(folder / name) for name in ("sealed.pdf", "plain.pdf", "none.pdf", "sealed.pdf")]


def integrity(found: Found) -> State | None:
    return found.verdict.state(Name.INTEGRITY) if found.verdict else None


def test_each_is_verified_in_its_order(tmp_path: Path) -> None:
    files = written(tmp_path)
    found = list(verify_all(files, ASKED))
    assert [one.file for one in found] == files
    assert [integrity(one) for one in found] == [State.PASSED, State.FAILED, None, State.PASSED]
    assert found[2].failure == f"{files[2]} cannot be read: No such file or directory"


def test_one_file_needs_no_other_process(tmp_path: Path) -> None:
    (only,) = verify_all(written(tmp_path)[:1], ASKED)
    assert integrity(only) is State.PASSED


def test_a_file_that_is_too_large_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(many, "LARGEST", 1000)
    found = verify_file(written(tmp_path)[0], ASKED)
    assert found.verdict is None
    assert "is larger than 0 MB" in found.failure


def test_what_goes_wrong_in_the_program_passes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(many, "read_at_most", lambda path, most: 1 / 0)
    found = verify_file(written(tmp_path)[0], ASKED)
    assert found.verdict is None
    assert "tracksworn itself has a fault (ZeroDivisionError: division by zero)" in found.failure


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (
            OSError(errno.ENOSPC, "No space left on device", "/tmp"),
            "the machine refuses: No space left on device: /tmp",
        ),
        (MemoryError(), "the machine has no memory left for this"),
    ],
)
def test_what_the_machine_refuses_is_told_as_that(
    error: Exception, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(path: Path, most: int) -> bytes:
        raise error

    monkeypatch.setattr(many, "read_at_most", refused)
    assert verify_file("a.pdf", ASKED) == Found("a.pdf", None, f"a.pdf: {said}")


def dying_of_some(file: str, asked: Asked) -> Found:
    if file.startswith("deadly"):
        os._exit(9)
    return Found(file, Verdict((Answer(Name.INTEGRITY, State.PASSED, ""),)))


def test_a_file_that_ends_its_process_harms_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(many, "verify_file", dying_of_some)
    files = ["a", "deadly", "b", "c", "deadly too", "d"]
    found = {one.file: one.verdict for one in verify_all(files, ASKED, workers=2)}
    assert list(found) == files
    for file, verdict in found.items():
        assert verdict is not None
        wanted = State.CANNOT_TELL if file.startswith("deadly") else State.PASSED
        assert verdict.state(Name.INTEGRITY) is wanted
        assert not verdict.passed


class Asking:
    """An archive that notes what it is asked, and in which process."""

    def __init__(self) -> None:
        self.asked: list[tuple[int, int, str]] = []

    def standing(self, claim: Claim) -> Standing:
        self.asked.append((os.getpid(), claim.revision, claim.document))
        return Standing(same=claim.sha256 == "ab", other=False, newest=claim.revision)


def claiming(file: str, asked: Asked) -> Found:
    claim = None if file == "none" else Claim("OXB-0231", 0, file, "ab" if file == "full" else "cd", 1000)
    return Found(file, Verdict((Answer(Name.ARCHIVE, State.CANNOT_TELL, ""),), claim))


class Holding:
    """An archive that holds the first bytes of any file."""

    def standing(self, claim: Claim) -> Standing:
        held = Bytes(4, sha256(b"%PDF").hexdigest())
        return Standing(same=False, other=True, newest=claim.revision, held=held)


def test_of_a_file_that_goes_on_where_what_is_held_ends_the_beginning_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(many, "verify_file", claiming)
    files = [str(tmp_path / name) for name in ("grown", "another", "gone")]
    (tmp_path / "grown").write_bytes(b"%PDF and more")
    (tmp_path / "another").write_bytes(b"another")
    said = [one.verdict.answers[-1].because for one in verify_all(files, ASKED, Holding(), workers=1) if one.verdict]
    assert [text.split(" as OXB")[0] for text in said[:2]] == [
        "the archive holds an earlier state of this file",
        "the archive holds another file",
    ]
    assert said[2].startswith("the archive gives no answer: ")
    assert said[2].endswith("gone cannot be read: No such file or directory")


def test_one_process_alone_asks_the_archive(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(many, "verify_file", claiming)
    archive = Asking()
    found = list(verify_all(["full", "none", "listing"], ASKED, archive, workers=2))
    states = [one.verdict and one.verdict.state(Name.ARCHIVE) for one in found]
    assert states == [State.PASSED, State.CANNOT_TELL, State.CANNOT_TELL]
    assert archive.asked == [(os.getpid(), 0, "full"), (os.getpid(), 0, "listing")]


def test_no_more_files_wait_than_are_soon_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(many, "verify_file", claiming)
    taken = []

    def names() -> Iterator[str]:
        for number in range(200):
            taken.append(number)
            yield str(number)

    found = many._side_by_side(names(), ASKED, 2)
    next(found)
    assert len(taken) <= 2 * many.AHEAD
    assert len(list(found)) == 199


ALONE = """
import os, signal, sys
from datetime import UTC, datetime
from tracksworn.records.verifying import many
from tracksworn.records.verifying.trust import Trust

def waiting_for_ever(file, asked):
    with open(file, "w") as told:
        told.write(str(os.getpid()))
    while True:
        signal.pause()

signal.signal(signal.SIGPIPE, signal.SIG_DFL)  # as every command does
many.import_module = lambda name: None
many.verify_file = waiting_for_ever
list(many.verify_all(sys.argv[1:], many.Asked(Trust(), datetime.now(UTC)), workers=2))
"""


@pytest.mark.slow
@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGINT])
def test_no_process_outlives_the_one_that_began_it(tmp_path: Path, number: signal.Signals) -> None:
    told = [tmp_path / "one", tmp_path / "two"]
    for each in told:
        os.mkfifo(each)
    with subprocess.Popen([sys.executable, "-c", ALONE, *told], stderr=subprocess.DEVNULL) as alone:
        watched = [os.pidfd_open(int(each.read_text())) for each in told]
        alone.send_signal(number)
        assert alone.wait(20) == -number
        for process in watched:
            assert select.select([process], [], [], 20)[0], "its process is still there"
            os.close(process)
