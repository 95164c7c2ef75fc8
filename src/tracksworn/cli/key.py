"""`tracksworn key`: a key to practise sealing with."""

import os
from datetime import UTC, datetime
from pathlib import Path

import click

from tracksworn.cli.exits import say
from tracksworn.cli.given import GivenPath
from tracksworn.cli.passwords import password, password_fd
from tracksworn.inspection.faults import WrongUse, printable


@click.group()
def key() -> None:
    """Make a key to practise sealing with."""


@key.command()
@click.option("--to", required=True, type=GivenPath(dir_okay=False), help="The file to write, FILE.p12.")
@click.option(
    "--name", default="Practice", show_default=True, help="Whom its certificate names, at most 64 characters."
)
@password_fd
def new(to: Path, name: str, password_fd: int | None) -> None:
    """Make a practice key and, beside it, its certificate FILE.pem.

    The certificate is signed by its own key: nobody has checked who you are, so a seal made with it shows that a file
    was not changed, and proves nobody's identity. For that, ask a certification authority for a key. The key file is
    locked with a password and readable by you alone; whoever has both can seal in that name, and a lost password
    cannot be found again. A file that is there already is left as it is.

    \b
        tracksworn key new --to practice.p12 --name "Ines Marlow"
    """
    from tracksworn.records.sealing.keeping import keep, refuse_taken
    from tracksworn.records.sealing.practice import LONGEST_NAME, practice_key

    if not 0 < len(name.strip()) <= LONGEST_NAME or not name.isprintable():
        raise WrongUse(f"a certificate's name has 1 to {LONGEST_NAME} characters that can be printed")
    refuse_taken(to)
    secret = password("Password for the new key", password_fd, twice=True)
    made = practice_key(name.strip(), secret, datetime.now(UTC).replace(microsecond=0))
    beside = keep(made, to)
    click.echo(os.fsencode(to))
    click.echo(os.fsencode(beside))
    say(
        "This is a practice key. Nobody vouches for the name in it: it shows that a sealed file was not changed, not "
        f"who sealed it. Give {printable(beside)} to whoever checks your seals; keep {printable(to)} and its password "
        "to yourself."
    )
