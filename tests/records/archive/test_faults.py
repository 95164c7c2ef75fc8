"""Death, a full disk or a broken one at any call that changes a file leaves the old state or the new."""

import errno
import itertools
import os
import random
import shutil
import signal
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory

import bagit
import pytest
from archived import Clock, NotWaiting, document
from records import grown

from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.bags import export, take_in
from tracksworn.records.archive.checking import check_index, check_log, check_records, check_strays, numbers_to_check
from tracksworn.records.archive.contents import read_facts
from tracksworn.records.archive.held import Held, Hold, Record, Sought
from tracksworn.records.archive.holds import holds_json
from tracksworn.records.archive.tombstones import tombstone_json
from tracksworn.records.disk import Disk

KILLED = "killed"


class Failing(NotWaiting):
    """A disk that dies, or refuses from then on, at the call of that number; of a write, half is done before."""

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

    def _fail(self, path: Path) -> None:
        if self.how == KILLED:
            os.kill(os.getpid(), signal.SIGKILL)
        assert isinstance(self.how, int)
        raise OSError(self.how, os.strerror(self.how), str(path))


Deed = Callable[[Archive], Iterator[object]]
"""What somebody does to an archive, in steps each of which happens whole or not at all."""


def add(archive: Archive, content: bytes) -> Iterator[object]:
    yield archive.add_known(content, read_facts(content))


def add_new(archive: Archive) -> Iterator[object]:
    return add(archive, document("B-2"))


def add_revision(archive: Archive) -> Iterator[object]:
    return add(archive, document(revision=1))


def add_document(archive: Archive) -> Iterator[object]:
    return add(archive, document(kind="certificate"))


def renew(archive: Archive) -> Iterator[object]:
    return add(archive, grown.countersigned())


def take_in_two(archive: Archive) -> Iterator[object]:
    with TemporaryDirectory(dir=archive.place.parent) as folder:
        for number in ("B-2", "C-3"):
            (Path(folder) / f"{number}.pdf").write_bytes(document(number))
        bagit.make_bag(folder, checksums=["sha256"])
        yield from take_in(archive, Path(folder))


def take_over(archive: Archive) -> Iterator[object]:
    """A record that is held elsewhere, and one that expired there."""
    with TemporaryDirectory(dir=archive.place.parent) as folder:
        for name, content in (("a.pdf", document("B-2")), ("b/holds.json", HELD), ("c/tombstone.json", GONE)):
            (Path(folder) / name).parent.mkdir(exist_ok=True)
            (Path(folder) / name).write_bytes(content)
        bagit.make_bag(folder, checksums=["sha256"])
        yield from take_in(archive, Path(folder))


HELD = holds_json("B-2", [Hold("claim", "2030-01-01T00:00:00Z", 0)])
GONE = tombstone_json(
    Record("C-3", (Held("C-3", 0, "ab" * 32, 1000, "2020-01-01T00:00:00Z", 0, None),), ()),
    "issued more than 5y before 2030-01-01",
    "2030-01-01T00:00:00Z",
)


def hold(archive: Archive) -> Iterator[object]:
    if not archive.known("OXB-0231").holds:
        yield archive.hold("OXB-0231", "claim")


def release(archive: Archive) -> Iterator[object]:
    if archive.known("HELD-1").holds:
        yield archive.release("HELD-1", "settled")


def expire(archive: Archive) -> Iterator[object]:
    return archive.expire("1y", date(2031, 5, 4))


DEEDS: Sequence[Deed] = (add_new, add_revision, add_document, renew, take_in_two, take_over, hold, release, expire)
LIKE_OTHERS: Sequence[Deed] = (add_document, renew, take_in_two, release)
"""Of these an ordinary run has the like: a new revision, what comes from elsewhere, a hold."""


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An archive with four records, of which two are old, one is held, and one has a sealed document more."""
    place = tmp_path_factory.mktemp("begun") / "archive"
    with Archive.open(place, new=True, clock=Clock()) as archive:
        archive.add(document())
        archive.add(grown.sealed())
        for number in ("OLD-1", "OLD-2"):
            archive.add(document(number, inspected="2020-01-01", issued="2020-01-01"))
        archive.add(document("HELD-1"))
        archive.hold("HELD-1", "claim")
    return place


def state(archive: Archive) -> object:
    """All that a user can see."""
    records = [archive.show(held.number) for held in archive.find(Sought())]
    return records, [archive.content(held) for held in archive.find(Sought()) if not held.expired]


def damages(archive: Archive) -> list[str]:
    found = [*check_log(archive), *check_index(archive), *check_strays(archive)]
    checked = check_records(archive, numbers_to_check(archive, None, 0))
    return [str(one) for one in (*found, *(damage for _, some in checked for damage in some))]


def done(place: Path, deed: Deed, disk: Disk) -> list[object]:
    """All that is seen before the deed, and after each of its steps."""
    with Archive.open(place, disk=disk, clock=Clock()) as archive:
        return [state(archive), *(state(archive) for _ in deed(archive))]


def whole_calls(begun: Path, deed: Deed, scratch: Path) -> tuple[int, list[object]]:
    """How many calls a deed makes that change files, and what is seen before it and after each step."""
    shutil.copytree(begun, scratch)
    counting = Failing(10**9, KILLED)
    states = done(scratch, deed, counting)
    assert all(one != another for one, another in pairwise(states))
    assert len(states) > 1
    return len(counting.calls), states


def killed(work: Callable[[], object]) -> int:
    """Do the work in a process of its own; the signal that ended it, or 0."""
    child = os.fork()
    if child == 0:
        try:
            work()
        finally:
            os._exit(0)
    return os.WTERMSIG(os.waitpid(child, 0)[1])


def check_after(place: Path, deed: Deed, states: Sequence[object]) -> int:
    """How many steps are done: each is done whole or not at all, and all can be done again."""
    with Archive.open(place, disk=NotWaiting(), clock=Clock()) as archive:
        seen = states.index(state(archive))
        list(deed(archive))
        assert state(archive) == states[-1]
        assert damages(archive) == []
        assert list((place / "staging").iterdir()) == []
    return seen


TRIED = [pytest.param(deed, marks=pytest.mark.long) if deed in LIKE_OTHERS else deed for deed in DEEDS]
STEPS: Mapping[Deed, int] = {add_new: 4, add_document: 4, renew: 4, release: 4, take_in_two: 5, take_over: 5, expire: 2}
"""Of what makes the same calls as another deed, or makes them twice, not each is tried."""


@pytest.mark.slow
@pytest.mark.parametrize("deed", TRIED)
def test_killed_at_any_call(begun: Path, deed: Deed, scratch: Path) -> None:
    calls, states = whole_calls(begun, deed, scratch / "whole")
    outcomes = []
    for number in range(0, calls, STEPS.get(deed, 1)):
        place = scratch / str(number)
        shutil.copytree(begun, place)
        assert killed(lambda place=place, number=number: done(place, deed, Failing(number, KILLED))) == signal.SIGKILL  # type: ignore[misc]
        outcomes.append(check_after(place, deed, states))
        shutil.rmtree(place)
    assert outcomes[0] == 0
    assert outcomes == sorted(outcomes), "once it is done, it stays done"


@pytest.mark.slow
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EIO, errno.EROFS], ids=errno.errorcode.get)
@pytest.mark.parametrize("deed", TRIED)
def test_refused_from_any_call_on(begun: Path, deed: Deed, code: int, scratch: Path) -> None:
    calls, states = whole_calls(begun, deed, scratch / "whole")
    for number in range(0, calls, (2 if code == errno.ENOSPC else 6) * STEPS.get(deed, 2)):
        place = scratch / str(number)
        shutil.copytree(begun, place)
        with pytest.raises(OSError, match=os.strerror(code)):
            done(place, deed, Failing(number, code))
        check_after(place, deed, states)
        shutil.rmtree(place)


@pytest.mark.slow
def test_killed_while_it_is_begun(scratch: Path) -> None:
    counting = Failing(10**9, KILLED)
    Archive.open(scratch / "whole", new=True, disk=counting).close()
    for number in range(len(counting.calls)):
        place = scratch / str(number)
        work = lambda place=place, number=number: Archive.open(place, new=True, disk=Failing(number, KILLED))  # noqa: E731
        assert killed(work) == signal.SIGKILL
        with Archive.open(place, new=True, disk=NotWaiting()) as archive:
            archive.add(document())
            assert damages(archive) == []


@pytest.mark.long
def test_killed_at_random_times(begun: Path, scratch: Path) -> None:
    """A clock of its own time ends the process anywhere, in the database's own writes too, and nothing is lost."""
    chance, place = random.Random(7), scratch / "archive"
    shutil.copytree(begun, place)
    content, facts = document(), read_facts(document())

    def work(seconds: float, number: int) -> None:
        signal.setitimer(signal.ITIMER_PROF, seconds)
        with Archive.open(place, disk=NotWaiting()) as archive:
            for another in itertools.count(number):
                archive.add_known(content, facts._replace(number=f"R-{another}"))

    known = 0
    for _ in range(200):
        assert killed(lambda: work(chance.uniform(0.005, 0.1), known)) == signal.SIGPROF  # noqa: B023
        with Archive.open(place) as archive, archive.reading() as reading:
            found = reading.count() - 4
            assert known <= found == archive.log.checkpoint().size - 6
            known = found
    assert known > 50
    with Archive.open(place) as archive:
        assert damages(archive) == []


def test_killed_while_it_exports(begun: Path, scratch: Path) -> None:
    """Nothing lies where the bag was to be until all of it does; what was begun is in nobody's way."""
    to = scratch / "bag"

    def work(number: int) -> None:
        with Archive.open(begun) as archive:
            sys.addaudithook(dying_at(number))
            export(archive, ["OXB-0231"], to)

    for number in itertools.count():
        if killed(lambda: work(number)) == 0:  # noqa: B023
            break
        assert not to.exists()
    assert number > 15
    assert [path.name for path in scratch.iterdir()] == ["bag"]
    assert bagit.Bag(str(to)).validate()


def dying_at(number: int) -> Callable[[str, tuple[object, ...]], None]:
    """A hook that ends the process before it makes, opens for writing or renames that many files."""
    left = itertools.count(number, -1)

    def hook(event: str, about: tuple[object, ...]) -> None:
        writes = event == "open" and isinstance(about[2], int) and about[2] & (os.O_WRONLY | os.O_RDWR)
        if (writes or event in ("os.mkdir", "os.rename")) and next(left) == 0:
            os.kill(os.getpid(), signal.SIGKILL)

    return hook


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
