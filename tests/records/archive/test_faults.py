"""Death, a full disk or a broken one at any call that changes a file leaves the old state or the new."""

import errno
import os
import random
import shutil
import signal
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from pathlib import Path

import pytest
from archived import Clock, document

from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.checking import check_index, check_log, check_records, check_strays, numbers_to_check
from tracksworn.records.archive.contents import read_facts
from tracksworn.records.archive.held import Sought
from tracksworn.records.disk import Disk

KILLED = "killed"


class Failing(Disk):
    """A disk that dies, or refuses from then on, at the call of that number; of a write, half is done before.

    It does not really wait for the disk: a process that dies takes nothing with it that it has written.
    """

    def __init__(self, at: int, how: int | str) -> None:
        self.left = at
        self.how = how
        self.calls: list[str] = []

    def before(self, call: str, path: Path) -> None:
        self.calls.append(call)
        self.left -= 1
        if self.left < 0:
            self._fail(path)

    def _put(self, handle: int, path: Path, content: bytes) -> None:
        if self.left == 0:
            os.write(handle, content[: len(content) // 2])
        super()._put(handle, path, content)

    def _sync(self, handle: int, path: Path) -> None:
        self.before("sync", path)

    def _fail(self, path: Path) -> None:
        if self.how == KILLED:
            os.kill(os.getpid(), signal.SIGKILL)
        assert isinstance(self.how, int)
        raise OSError(self.how, os.strerror(self.how), str(path))


Deed = Callable[[Archive], object]


def add_new(archive: Archive) -> object:
    return archive.add_known(document("B-2"), read_facts(document("B-2")))


def add_revision(archive: Archive) -> object:
    return archive.add_known(document(revision=1), read_facts(document(revision=1)))


def hold(archive: Archive) -> object:
    record = archive.show("OXB-0231")
    assert record is not None
    return None if record.holds else archive.hold("OXB-0231", "claim")


def expire(archive: Archive) -> object:
    return list(archive.expire("1y", date(2031, 5, 4)))


DEEDS: Sequence[Deed] = (add_new, add_revision, hold, expire)


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An archive with two records, one of them old."""
    place = tmp_path_factory.mktemp("begun") / "archive"
    with Archive.open(place, new=True, clock=Clock()) as archive:
        archive.add(document())
        archive.add(document("OLD-1", inspected="2020-01-01", issued="2020-01-01"))
    return place


def state(archive: Archive) -> object:
    """All that a user can see."""
    records = [archive.show(held.number) for held in archive.find(Sought())]
    return records, [archive.content(held) for held in archive.find(Sought()) if not held.expired]


def damages(archive: Archive) -> list[str]:
    found = [*check_log(archive), *check_index(archive), *check_strays(archive)]
    checked = check_records(archive, numbers_to_check(archive, None, 0))
    return [str(one) for one in (*found, *(damage for _, some in checked for damage in some))]


def done(place: Path, deed: Deed, disk: Disk) -> object:
    with Archive.open(place, disk=disk, clock=Clock()) as archive:
        deed(archive)
        return state(archive)


def whole_calls(begun: Path, deed: Deed, scratch: Path) -> tuple[int, object, object]:
    """How many calls a deed makes that change files, and what is seen before and after it."""
    shutil.copytree(begun, scratch)
    with Archive.open(scratch, clock=Clock()) as archive:
        old = state(archive)
    counting = Failing(10**9, KILLED)
    new = done(scratch, deed, counting)
    assert old != new
    return len(counting.calls), old, new


def killed(work: Callable[[], object]) -> int:
    """Do the work in a process of its own; the signal that ended it, or 0."""
    child = os.fork()
    if child == 0:
        try:
            work()
        finally:
            os._exit(0)
    return os.WTERMSIG(os.waitpid(child, 0)[1])


def check_after(place: Path, deed: Deed, old: object, new: object) -> bool:
    """Whether the new state is there; nothing else but the old may be, and the deed can be done again."""
    with Archive.open(place, clock=Clock()) as archive:
        seen = state(archive)
        assert seen in (old, new)
        deed(archive)
        assert state(archive) == new
        assert damages(archive) == []
        assert list((place / "staging").iterdir()) == []
    return seen == new


@pytest.mark.slow
@pytest.mark.parametrize("deed", DEEDS)
def test_killed_at_any_call(begun: Path, deed: Deed, tmp_path: Path) -> None:
    calls, old, new = whole_calls(begun, deed, tmp_path / "whole")
    outcomes = []
    for number in range(calls):
        place = tmp_path / str(number)
        shutil.copytree(begun, place)
        assert killed(lambda place=place, number=number: done(place, deed, Failing(number, KILLED))) == signal.SIGKILL  # type: ignore[misc]
        outcomes.append(check_after(place, deed, old, new))
        shutil.rmtree(place)
    assert not outcomes[0]
    assert outcomes == sorted(outcomes), "once it is done, it stays done"


@pytest.mark.slow
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EIO, errno.EROFS], ids=errno.errorcode.get)
@pytest.mark.parametrize("deed", DEEDS)
def test_refused_from_any_call_on(begun: Path, deed: Deed, code: int, tmp_path: Path) -> None:
    calls, old, new = whole_calls(begun, deed, tmp_path / "whole")
    for number in range(0, calls, 1 if code == errno.ENOSPC else 5):
        place = tmp_path / str(number)
        shutil.copytree(begun, place)
        with pytest.raises(OSError, match=os.strerror(code)):
            done(place, deed, Failing(number, code))
        check_after(place, deed, old, new)
        shutil.rmtree(place)


@pytest.mark.slow
def test_killed_while_it_is_begun(tmp_path: Path) -> None:
    counting = Failing(10**9, KILLED)
    Archive.open(tmp_path / "whole", new=True, disk=counting).close()
    for number in range(len(counting.calls)):
        place = tmp_path / str(number)
        work = lambda place=place, number=number: Archive.open(place, new=True, disk=Failing(number, KILLED))  # noqa: E731
        assert killed(work) == signal.SIGKILL
        with Archive.open(place, new=True) as archive:
            archive.add(document())
            assert damages(archive) == []


@pytest.mark.slow
def test_killed_at_random_times(begun: Path, tmp_path: Path) -> None:
    """The clock ends the process anywhere, the database's own writes among them, and nothing is lost."""
    chance, place = random.Random(7), tmp_path / "archive"
    shutil.copytree(begun, place)
    documents = [document(f"R-{number}") for number in range(150)]

    def work(seconds: float) -> None:
        signal.setitimer(signal.ITIMER_REAL, seconds)
        with Archive.open(place) as archive:
            for content in documents:
                archive.add(content)

    size, rounds = 2, 0
    while rounds < 40 and killed(lambda: work(chance.uniform(0.02, 0.5))) == signal.SIGALRM:
        rounds += 1
        with Archive.open(place) as archive:
            kept = list(archive.find(Sought()))
            assert len(kept) == archive.log.checkpoint().size >= size
            size = len(kept)
    assert rounds > 5
    with Archive.open(place) as archive:
        assert all(archive.add(content).number for content in documents)
        assert damages(archive) == []


def test_killed_with_the_act_logged_and_nothing_in_place(begun: Path, tmp_path: Path) -> None:
    place = tmp_path / "archive"
    shutil.copytree(begun, place)
    counting = Failing(10**9, KILLED)
    done(place, add_new, counting)
    shutil.rmtree(place)
    shutil.copytree(begun, place)
    last_rename = max(number for number, call in enumerate(counting.calls) if call == "rename")
    assert killed(lambda: done(place, add_new, Failing(last_rename, KILLED))) == signal.SIGKILL
    assert list((place / "staging").iterdir())
    with Archive.open(place) as archive:
        record = archive.show("B-2")
        assert record is not None
        assert archive.content(record.documents[0]) == document("B-2")
        assert damages(archive) == []


def test_a_full_disk_is_told_and_nothing_is_half_written(begun: Path, tmp_path: Path) -> None:
    place = tmp_path / "archive"
    shutil.copytree(begun, place)
    with pytest.raises(OSError, match="No space left"):
        done(place, add_new, Failing(5, errno.ENOSPC))
    with Archive.open(place) as archive:
        assert archive.show("B-2") is None
        assert damages(archive) == []


def test_nothing_is_renamed_that_is_not_durable(begun: Path, tmp_path: Path) -> None:
    class Watching(Disk):
        """Notes what was written and not synced when something is renamed."""

        def __init__(self) -> None:
            self.loose: set[Path] = set()
            self.renames = 0

        def before(self, call: str, path: Path) -> None:
            if call in ("create", "write", "truncate"):
                self.loose.add(path)
            if call == "sync":
                self.loose.discard(path)
            if call == "rename":
                self.renames += 1
                assert not self.loose

    watching = Watching()
    shutil.copytree(begun, tmp_path / "archive")
    done(tmp_path / "archive", add_revision, watching)
    assert watching.renames >= 4


def children(works: Sequence[Callable[[], object]]) -> Iterator[int]:
    """Do all of the work at the same time, each in a process of its own; the exit status of each."""
    started = []
    for work in works:
        child = os.fork()
        if child == 0:
            status = 1
            try:
                work()
                status = 0
            finally:
                os._exit(status)
        started.append(child)
    for child in started:
        yield os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def adding(place: Path, url: str | None, numbers: Sequence[int]) -> Callable[[], object]:
    contents = [document(f"T-{number}") for number in numbers]

    def work() -> None:
        with Archive.open(place, new=True, index=url) as archive:
            for content in contents:
                archive.add(content)

    return work


@pytest.mark.parametrize("database", ["sqlite", "postgresql"])
def test_two_that_add_at_once_lose_nothing(database: str, tmp_path: Path, request: pytest.FixtureRequest) -> None:
    url = request.getfixturevalue("postgresql")() if database == "postgresql" else None
    works = [adding(tmp_path / "a", url, range(7)), adding(tmp_path / "a", url, range(4, 11))]
    assert list(children(works)) == [0, 0]
    with Archive.open(tmp_path / "a", index=url) as archive:
        assert sorted(held.number for held in archive.find(Sought())) == sorted(f"T-{number}" for number in range(11))
        assert archive.log.checkpoint().size == 11
        assert damages(archive) == []
