"""What the program ends with, and the sentence that goes before it."""

from enum import IntEnum

import click

from tracksworn.inspection.faults import Faulty, WrongUse, failure


class Exit(IntEnum):
    """Exit statuses: a contract with every script that calls this program."""

    DONE = 0
    FAULTS = 1
    WRONG_USE = 2
    FAILED = 3
    INTERRUPTED = 130


def say(words: str) -> None:
    """Words go to standard error, results to standard output."""
    click.echo(words, err=True)


def exit_for(error: Exception) -> Exit:
    """Tell what went wrong and give the status that goes with it."""
    if isinstance(error, click.exceptions.Exit):
        return Exit(error.exit_code)
    if isinstance(error, click.Abort):
        say("interrupted")
        return Exit.INTERRUPTED
    if isinstance(error, click.ClickException):
        error.show()
        return Exit.WRONG_USE
    if isinstance(error, Faulty):
        say(str(error))
        return Exit.FAULTS
    if isinstance(error, WrongUse):
        say(f"wrong use: {error}")
        return Exit.WRONG_USE
    say(failure(error))
    return Exit.FAILED
