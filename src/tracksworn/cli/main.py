"""`tracksworn`: the group of commands and the one place where errors become exit statuses."""

import signal
import sys

import click

from tracksworn import __version__
from tracksworn.cli.assess import assess
from tracksworn.cli.check import check
from tracksworn.cli.exits import Exit, exit_for, say
from tracksworn.cli.new import new
from tracksworn.cli.report import report
from tracksworn.cli.schema import schema

SHELLS = ("bash", "zsh", "fish")


def _print_completion(context: click.Context, _option: click.Parameter, shell: str | None) -> None:
    if shell is None or context.resilient_parsing:
        return
    from click.shell_completion import get_completion_class

    kind = get_completion_class(shell)
    if kind is None:
        raise click.BadParameter(f"{shell!r} is not one of {', '.join(SHELLS)}")
    click.echo(kind(context.command, {}, "tracksworn", "_TRACKSWORN_COMPLETE").source())
    context.exit()


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, message="%(prog)s %(version)s")
@click.option(
    "--completion",
    type=click.Choice(SHELLS),
    is_eager=True,
    expose_value=False,
    callback=_print_completion,
    help='Print what makes your shell complete commands; for bash: eval "$(tracksworn --completion bash)"',
)
def tracksworn() -> None:
    """From a walk round a crawler machine to a condition report that a stranger can rely on.

    An inspection is a text file: who looked, at which machine, what was measured, judged by eye, seen, or not
    seen. Begin with

    \b
        tracksworn new inspection --to my-machine/inspection.yaml
        tracksworn check my-machine/inspection.yaml
        tracksworn report my-machine/inspection.yaml --to output

    Exit status: 0 done, 1 the input has faults, 2 wrong use of the command, 3 the machine or a service failed,
    130 interrupted.
    """


for command in (new, check, assess, report, schema):
    tracksworn.add_command(command)


def main() -> None:
    """Run the command line; whatever goes wrong ends with a sentence and an exit status, never a traceback."""
    if hasattr(signal, "SIGPIPE"):
        signal.signal(signal.SIGPIPE, signal.SIG_DFL)  # end quietly, as all do, when `head` has read enough
    try:
        status = tracksworn.main(prog_name="tracksworn", standalone_mode=False)
    except Exception as error:  # noqa: BLE001 - the last door: no traceback reaches a user
        status = exit_for(error)
    except KeyboardInterrupt:
        say("interrupted")
        status = Exit.INTERRUPTED
    sys.exit(status if isinstance(status, int) else Exit.DONE)
