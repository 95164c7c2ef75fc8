"""`tracksworn`: the one door. Whatever goes wrong ends with a sentence and an exit status, never a traceback.

It imports nothing before it can tell of an interrupt.
"""

import sys

from tracksworn import __version__


def main() -> None:
    """Run the command line as a process of its own."""
    try:
        _heed_signals()
        status = run(sys.argv[1:])
    except KeyboardInterrupt:
        print("interrupted", file=sys.stderr)
        status = 130  # Exit.INTERRUPTED, which may not be imported yet
    sys.exit(status)


def _heed_signals() -> None:
    import signal

    signal.signal(signal.SIGPIPE, signal.SIG_DFL)  # end quietly, as all do, when `head` has read enough
    signal.signal(signal.SIGTERM, lambda number, _: sys.exit(128 + number))  # so that what is half done is undone


def run(words: list[str]) -> int:
    """The exit status of a command, after all that it prints."""
    if words == ["--version"]:  # asked by scripts at every start: answered before anything else is imported
        print(f"tracksworn {__version__}")
        return 0
    from tracksworn.cli.commands import tracksworn
    from tracksworn.cli.exits import exit_for

    try:
        return tracksworn.main(words, prog_name="tracksworn", standalone_mode=False) or 0
    except Exception as error:  # noqa: BLE001 - the last door
        return exit_for(error)
