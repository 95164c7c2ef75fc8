"""The group of commands, and the completion of a shell."""

import click

from tracksworn import __version__
from tracksworn.cli.archive import archive
from tracksworn.cli.assess import assess
from tracksworn.cli.batch import batch
from tracksworn.cli.check import check
from tracksworn.cli.compare import compare
from tracksworn.cli.key import key
from tracksworn.cli.new import new
from tracksworn.cli.report import report
from tracksworn.cli.sample import sample
from tracksworn.cli.schema import schema
from tracksworn.cli.seal import seal
from tracksworn.cli.verify import verify

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

    An inspection is a text file in a folder of its own: who looked, at which machine, what was measured, judged by
    eye, seen, or not seen, and why. Begin with

    \b
        tracksworn new inspection --layout excavator --to my-machine/inspection.yaml
        (fill it in with any editor)
        tracksworn check my-machine
        tracksworn assess my-machine
        tracksworn report my-machine --to output

    Results go to standard output, words to standard error. Exit status: 0 done (warnings leave it so), 1 the input
    has faults, 2 wrong use of the command, 3 the machine or a service failed, with nothing half written,
    130 interrupted.
    """


for command in (new, check, assess, report, batch, compare, key, seal, verify, archive, sample, schema):
    tracksworn.add_command(command)
