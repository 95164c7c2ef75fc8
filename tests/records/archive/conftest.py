"""Empty archives with a clock that stands still, and a real PostgreSQL server."""

import os
import pwd
import shutil
import subprocess
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path
from shutil import disk_usage
from tempfile import TemporaryDirectory, mkdtemp

import pytest
from archived import Clock, NotWaiting
from sqlalchemy import create_engine

from tracksworn.records.archive.archive import Archive

DEBIAN = Path("/usr/lib/postgresql")
MEMORY = Path("/dev/shm")
ROOM = 2 << 30  # bytes


def _in_memory() -> Path | None:
    return MEMORY if MEMORY.is_dir() and disk_usage(MEMORY).free > ROOM else None


@pytest.fixture
def scratch() -> Iterator[Path]:
    """A folder for what is written very often, in memory where there is room."""
    with TemporaryDirectory(dir=_in_memory()) as folder:
        yield Path(folder)


@pytest.fixture
def in_folder(tmp_path: Path) -> Iterator[Archive]:
    """An archive with its index beside the files."""
    with Archive.open(tmp_path / "archive", new=True, disk=NotWaiting(), clock=Clock()) as archive:
        yield archive


@pytest.fixture(params=["sqlite", "postgresql"])
def archive(tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Archive]:
    """An archive with its index in either database."""
    url = request.getfixturevalue("postgresql")() if request.param == "postgresql" else None
    with Archive.open(tmp_path / "archive", new=True, index=url, disk=NotWaiting(), clock=Clock()) as opened:
        yield opened


@pytest.fixture(scope="session")
def postgresql() -> Iterator[Callable[[], str]]:
    """A server of our own; each call makes an empty database and gives its URL."""
    programs = sorted(DEBIAN.glob("*/bin/pg_ctl"))
    assert programs, "PostgreSQL's server is not installed (Debian: postgresql)"
    folder = Path(mkdtemp(prefix="pg", dir=_in_memory()))
    user = "postgres" if os.geteuid() == 0 else pwd.getpwuid(os.geteuid()).pw_name
    if os.geteuid() == 0:
        shutil.chown(folder, user)

    def run(program: str, *words: str) -> None:
        as_user = ["runuser", "-u", user, "--"] if os.geteuid() == 0 else []
        command = [*as_user, str(programs[-1].with_name(program)), *words]
        done = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, check=False, cwd=folder)
        assert done.returncode == 0, done.stderr.decode()

    data = str(folder / "data")
    run("initdb", "-D", data, "-A", "trust", "-U", "postgres", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync")
    run("pg_ctl", "-D", data, "-w", "-l", str(folder / "log"), "-o", f"-k {folder} -c listen_addresses= -F", "start")
    numbers = count()

    def database() -> str:
        engine = create_engine(f"postgresql+psycopg://postgres@/postgres?host={folder}", isolation_level="AUTOCOMMIT")
        name = f"archive{next(numbers)}"
        with engine.connect() as connection:
            connection.exec_driver_sql(f"CREATE DATABASE {name}")
        engine.dispose()
        return f"postgresql+psycopg://postgres@/{name}?host={folder}"

    yield database
    run("pg_ctl", "-D", data, "-m", "immediate", "-w", "stop")
    shutil.rmtree(folder)
