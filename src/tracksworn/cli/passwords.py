"""Passwords and PINs: from a file descriptor, the environment or a prompt, never from an argument, never printed."""

import os
import sys
from io import FileIO

import click

from tracksworn.inspection.faults import WrongUse

VARIABLE = "TRACKSWORN_KEY_PASSWORD"
LONGEST = 4096  # bytes

password_fd = click.option(
    "--password-fd",
    type=click.IntRange(min=0),
    metavar="NUMBER",
    help=f"Read the password, one line, from this file descriptor; else {VARIABLE} is read, else you are asked.",
)


def password(what: str, descriptor: int | None, *, twice: bool = False) -> str:
    """The password of something, which a prompt names. Raises WrongUse where there is none and nobody to ask."""
    said = _from_descriptor(descriptor) if descriptor is not None else os.environ.get(VARIABLE)
    if said is None:
        if not sys.stdin.isatty():
            raise WrongUse(
                f"{what} is needed, and there is no terminal to ask at: set {VARIABLE}, or use --password-fd"
            )
        said = click.prompt(what, hide_input=True, confirmation_prompt=twice, err=True)
    if not said:
        raise WrongUse(f"{what} is empty")
    return str(said)


def _from_descriptor(descriptor: int) -> str:
    try:
        with os.fdopen(os.dup(descriptor), "rb", buffering=0) as file:
            line = _first_line(file)
    except OSError as error:
        raise WrongUse(f"file descriptor {descriptor} cannot be read for a password: {error.strerror}") from error
    if len(line) > LONGEST:
        raise WrongUse(
            f"what file descriptor {descriptor} holds is no password: its first line is over {LONGEST} bytes"
        )
    try:
        return line.removesuffix(b"\r").decode("utf-8")
    except UnicodeDecodeError as error:
        raise WrongUse(f"what file descriptor {descriptor} holds is no text in UTF-8") from error


def _first_line(file: FileIO) -> bytes:
    """All of it, in however many pieces it is written, but no more than shows that it is too long."""
    content = b""
    while b"\n" not in content and len(content) <= LONGEST and (more := file.read(LONGEST)):
        content += more
    return content.split(b"\n", 1)[0]
