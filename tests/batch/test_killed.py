"""A run that is killed at any moment leaves whole documents or none, and the same command then goes on to the end."""

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from sales import run, tree, write_lot, write_sale

LOTS = 3
ROOT = Path(__file__).parents[2]
CALLS = (
    "os.open",
    "os.fsync",
    "os.rename",
    "os.replace",
    "pathlib.Path.replace",
    "pathlib.Path.write_bytes",
    "os.rmdir",
)
"""What a run changes files by, or does just before or after."""


@pytest.fixture(scope="module")
def sale(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_sale(tmp_path_factory.mktemp("sale"), LOTS)


@pytest.fixture(scope="module")
def undisturbed(sale: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("undisturbed")
    run(sale, out)
    return out


def killed(sale: Path, out: Path, at: int) -> bool:
    """Whether a run in a process of its own was killed at that call; else there were fewer calls, and it is done."""
    child = os.fork()
    if child == 0:
        status = 1
        try:
            with pytest.MonkeyPatch.context() as patched:
                left = iter(range(at))
                for name in CALLS:
                    patched.setattr(name, _counted(_found(name), left))
                run(sale, out)
            status = 0
        finally:
            os._exit(status)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status) or os.waitstatus_to_exitcode(status) == 0
    return os.WIFSIGNALED(status)


def _found(name: str) -> Callable[..., object]:
    from pkgutil import resolve_name

    found: Callable[..., object] = resolve_name(name)
    return found


def _counted(call: Callable[..., object], left: Iterator[int]) -> Callable[..., object]:
    def counted(*args: object, **more: object) -> object:
        if next(left, None) is None:
            os.kill(os.getpid(), signal.SIGKILL)
        return call(*args, **more)

    return counted


def holds(sale: Path, out: Path, undisturbed: Path) -> None:
    """What stands is whole, and what the same command makes of it is the same as without any kill."""
    wanted = tree(undisturbed)
    standing = {name: content for name, content in tree(out).items() if not name.startswith(".tracksworn-writing-")}
    assert standing.items() <= wanted.items()
    assert run(sale, out).outcomes.count("faulty") == 0
    assert tree(out) == wanted
    assert _notes(out) == _notes(undisturbed)
    assert run(sale, out).asked == []


def _notes(out: Path) -> list[str]:
    return sorted(path.relative_to(out).as_posix() for path in (out / ".batch").rglob("*"))


@pytest.mark.parametrize("at", [1, 8, 15, 22, 29])
def test_killed_at_a_call(sale: Path, undisturbed: Path, tmp_path: Path, at: int) -> None:
    assert killed(sale, tmp_path / "out", at)
    holds(sale, tmp_path / "out", undisturbed)


@pytest.mark.slow
def test_killed_at_every_call(sale: Path, undisturbed: Path, tmp_path: Path) -> None:
    calls = 0
    while killed(sale, tmp_path / f"out-{calls}", calls):
        holds(sale, tmp_path / f"out-{calls}", undisturbed)
        calls += 1
    assert calls > 10 * LOTS


@pytest.mark.slow
def test_killed_again_and_again_in_the_same_folder(sale: Path, undisturbed: Path, tmp_path: Path) -> None:
    out, chance = tmp_path / "out", random.Random(7)
    for _ in range(20):
        killed(sale, out, chance.randrange(1, 40))
    holds(sale, out, undisturbed)


@pytest.mark.slow
def test_killed_while_a_lot_is_written_over(tmp_path: Path) -> None:
    """Of a lot that has changed the old document stands, or the new."""
    sale, old = write_sale(tmp_path / "sale", LOTS), tmp_path / "old"
    run(sale, old)
    for at in range(0, 40, 3):
        out = tmp_path / f"out-{at}"
        write_lot(sale, 2)
        run(sale, out)
        write_lot(sale, 2, worn=77)
        killed(sale, out, at)
        standing = tree(out)["OXB-2-r0-listing.pdf"]
        run(sale, out)
        assert standing in (tree(old)["OXB-2-r0-listing.pdf"], tree(out)["OXB-2-r0-listing.pdf"])
        assert tree(out).keys() == tree(old).keys()


@pytest.mark.long
def test_the_command_killed_at_random_moments(tmp_path: Path) -> None:
    """Real documents by real processes, killed twenty times, against a run that nothing disturbed."""
    sale = write_sale(tmp_path / "sale", 8)
    whole, out, chance = tmp_path / "whole", tmp_path / "out", random.Random(11)
    begun = time.monotonic()
    assert _command(sale, whole).wait() == 0
    taken = time.monotonic() - begun
    for _ in range(20):
        with _command(sale, out) as running:
            try:
                running.wait(timeout=chance.uniform(0, taken))
            except subprocess.TimeoutExpired:
                running.kill()
        standing = {name: content for name, content in tree(out).items() if not name.startswith(".tracksworn-writing-")}
        assert standing.items() <= tree(whole).items()
    assert _command(sale, out).wait() == 0
    assert tree(out) == tree(whole)
    assert _notes(out) == _notes(whole)


def _command(sale: Path, out: Path) -> "subprocess.Popen[bytes]":
    words = [
        "-c",
        "from tracksworn.cli.main import main; main()",
        "batch",
        str(sale),
        "--to",
        str(out),
        "--format",
        "html",
    ]
    quiet = subprocess.DEVNULL
    return subprocess.Popen([sys.executable, *words], cwd=ROOT, stdout=quiet, stderr=quiet)
