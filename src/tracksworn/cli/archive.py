"""`tracksworn archive`: records kept for decades."""

import json
import os
import sys
from collections.abc import Callable, Iterable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracksworn.cli.exits import Exit, say
from tracksworn.cli.given import GivenPath, OneOf
from tracksworn.documents.render.files import Sheet
from tracksworn.inspection.faults import TrackswornError, WrongUse, printable, visible

if TYPE_CHECKING:
    from tracksworn.records.archive.archive import Archive
    from tracksworn.records.archive.held import Held, TakenHold, TakenTombstone

DAY = click.DateTime(formats=["%Y-%m-%d"])
INDEX = "TRACKSWORN_ARCHIVE_INDEX"
LOG_KEY = "TRACKSWORN_ARCHIVE_LOG_KEY"


def opened(place: Path, *, new: bool = False, log_key: Path | None = None) -> "Archive":
    """The archive in a folder, with the index and, where none is given, the log's key that the environment names."""
    from tracksworn.records.archive.archive import Archive

    named = os.environ.get(LOG_KEY)
    log_key = log_key or (Path(named) if named else None)
    return Archive.open(place, new=new, index=os.environ.get(INDEX) or None, log_key=log_key)


@click.group()
def archive() -> None:
    """Keep records for decades: find them, show that they are unaltered, hand them on, let them go by rule.

    The archive is one folder. In it every record can be read without this program, every act is in a log of which
    nothing can be taken back unseen, and the index that makes finding quick can always be made anew. TRACKSWORN_ARCHIVE
    may name the folder; TRACKSWORN_ARCHIVE_INDEX a PostgreSQL database for the index,
    postgresql+psycopg://USER@HOST/DATABASE, else nothing needs to be set up. Whoever has the key that signs the log can
    write another log: TRACKSWORN_ARCHIVE_LOG_KEY, or --log-key, keeps it elsewhere.

    \b
        tracksworn archive add sealed/*.pdf --in records
        tracksworn archive history HLN640E0K00412 --in records
        tracksworn archive verify --in records
    """


def _stage(context: click.Context, option: click.Parameter, said: str | None) -> Any:
    """A stage by its word; the assessment that knows them is imported only where one is sought."""
    if said is None:
        return None
    from tracksworn.assessment.model import Stage

    return OneOf(Stage).convert(said, option, context)


PLACE = click.option(
    "--in",
    "place",
    type=GivenPath(file_okay=False),
    envvar="TRACKSWORN_ARCHIVE",
    required=True,
    show_envvar=True,
    metavar="DIR",
    help="The archive's folder; `add` and `import` begin one where there is none.",
)
KEY_FILE = click.option(
    "--log-key",
    type=GivenPath(dir_okay=False),
    envvar=LOG_KEY,
    show_envvar=True,
    metavar="FILE",
    help="Where the key that signs the log is kept, or made for a new archive, if not in the archive's own folder.",
)
REVISION = click.option("--revision", type=int, metavar="N", help="Which revision; else the newest.")
DOCUMENT = click.option("--document", type=OneOf(Sheet), help="Which of the revision's documents, if it has several.")


def _command(
    name: str | None = None, *, new: bool = False, changes: bool = False
) -> Callable[[Callable[..., int | None]], click.Command]:
    """A subcommand that is given the open archive; what is not taken or not sound becomes exit status 1."""

    def made(function: Callable[..., int | None]) -> click.Command:
        @wraps(function)
        def run(place: Path, log_key: Path | None = None, **options: Any) -> int | None:
            from tracksworn.records.archive.held import NotTaken
            from tracksworn.records.log.checkpoint import LogBroken

            try:
                with opened(place, new=new, log_key=log_key) as kept:
                    return function(kept, **options)
            except (NotTaken, LogBroken) as error:
                say(str(error))
                return Exit.FAULTS

        return archive.command(name or function.__name__)(PLACE(KEY_FILE(run) if changes else run))

    return made


@_command(new=True, changes=True)
@click.argument("files", nargs=-1, required=True, type=GivenPath(exists=True, dir_okay=False), metavar="FILE.pdf...")
def add(archive: "Archive", files: tuple[Path, ...]) -> int:
    """Put finished documents in, with the data that they carry.

    Of one revision there may be a full report, a listing sheet and a certificate, each sealed. The same file again
    changes nothing. One that is held, renewed or countersigned since as its seal allows, takes its place, and the
    earlier form stays beside it. Any other file in the place of one that is held is refused: what has changed needs a
    revision of its own. What is refused is told, and the others are put in.
    """
    from tracksworn.cli.progress import each
    from tracksworn.records.archive.held import NotTaken

    status = Exit.DONE
    for file in each(files, "archived"):
        try:
            _say_added(archive.add(file.read_bytes()))
        except NotTaken as error:
            say(f"{printable(file)}: {error}")
            status = Exit.FAULTS
    return status


@_command()
@click.option("--number", help="A record number.")
@click.option("--machine", help="A part of maker and model.")
@click.option("--serial", help="A whole serial number; blanks, hyphens and case do not count.")
@click.option("--firm", help="A part of the firm's name.")
@click.option("--since", type=DAY, metavar="DATE", help="Inspected on that day or later.")
@click.option("--until", type=DAY, metavar="DATE", help="Inspected on that day or before.")
@click.option(
    "--stage",
    callback=_stage,
    help="Of the component that is worn furthest: first-half, second-half, near-limit, past-limit.",
)
@click.option("--text", help="Words that all stand in notes, observations or findings.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON, a list.")
def find(archive: "Archive", as_json: bool, **sought: Any) -> None:
    """Print every document of which all holds that is asked, by day of inspection; all of them if nothing is.

    A line has its name, the day of inspection, maker, model, serial number, firm, and stage.
    """
    from tracksworn.records.archive.held import Sought

    for day in ("since", "until"):
        sought[day] = sought[day] and sought[day].date()
    _print(archive.find(Sought(**sought)), as_json=as_json)


@_command()
@click.argument("number", metavar="NUMBER")
@REVISION
@DOCUMENT
@click.option("--to", type=GivenPath(dir_okay=False), metavar="FILE.pdf", help="Write one document itself there.")
def show(archive: "Archive", number: str, revision: int | None, document: str | None, to: Path | None) -> None:
    """Print what is held of one record, and what keeps it; or write a document of it as it was put in.

    Without --to, all revisions are printed, or those that are asked for.
    """
    record = archive.known(number)
    if to is None:
        every = revision is None and document is None
        _print(record.documents if every else record.choose(revision, document), as_json=False)
        for form in record.former:
            click.echo(f"{form.name} was added {form.added[:10]} in an earlier form, SHA-256 {form.sha256}")
        for hold in record.holds:
            click.echo(visible(f"held since {hold.since}, act {hold.act}: {hold.reason}"))
        return
    from tracksworn.documents.writing import write_together

    for path in write_together(to.parent, {to.name: archive.content(record.choose_one(revision, document))}):
        click.echo(os.fsencode(path))


@_command()
@click.argument("serial", metavar="SERIAL")
@click.option("--json", "as_json", is_flag=True, help="Print JSON, a list.")
def history(archive: "Archive", serial: str, as_json: bool) -> None:
    """Print every document of one machine, the oldest inspection first. Blanks, hyphens and case do not count."""
    _print(archive.history(serial), as_json=as_json)


@_command()
@click.option("--sample", type=click.IntRange(min=1), metavar="N", help="Read the files of only so many records.")
@click.option("--seed", type=int, default=0, help="Which these are; another number, another sample.")
def verify(archive: "Archive", sample: int | None, seed: int) -> int:
    """Read everything again, and name whatever is not as it was put: log, records, index.

    Whether the documents are sealed and true is for `tracksworn verify` to say.
    """
    from tracksworn.cli.progress import each_of
    from tracksworn.records.archive.checking import (
        check_index,
        check_log,
        check_records,
        check_strays,
        count_records,
        numbers_to_check,
    )

    found = list(check_log(archive))
    if not found:
        found += [*check_index(archive), *check_strays(archive)]
        count = min(count_records(archive), sample or sys.maxsize)
        checked = check_records(archive, numbers_to_check(archive, sample, seed))
        for _, some in each_of(checked, count, "records"):
            found += some
        say(f"records read: {count}; acts in the log: {archive.log.checkpoint().size}")
    for damage in found:
        click.echo(str(damage))
    return Exit.FAULTS if found else Exit.DONE


@_command()
@click.argument("numbers", nargs=-1, metavar="[NUMBER]...")
@click.option("--all", "everything", is_flag=True, help="Every record, and the whole log.")
@click.option("--to", type=GivenPath(), required=True, metavar="DIR", help="A folder that is not there yet.")
def export(archive: "Archive", numbers: tuple[str, ...], everything: bool, to: Path) -> None:
    """Write records as a bag (RFC 8493), for whoever has no access here.

    What is on hold has the reasons beside it, and what has expired its tombstone. Beside each document is a proof that
    it is in the log; with --all the log itself. HOW-TO-CHECK.txt in it says how that is checked without this program.

    \b
        tracksworn archive export MPS-2031-0402 --to claim-LM-77 --in records
    """
    from tracksworn.records.archive.bags import export

    if everything == bool(numbers):
        raise WrongUse("name the records to export, or --all of them")
    say(f"documents exported: {export(archive, None if everything else numbers, to)}")
    click.echo(os.fsencode(to))


@_command("import", new=True, changes=True)
@click.argument("bag", type=GivenPath(exists=True, file_okay=False), metavar="BAG")
def take_in(archive: "Archive", bag: Path) -> int:
    """Take over all of a bag (RFC 8493), once it is found unaltered.

    Its documents are put in. What is on hold where they come from is on hold here too, for the same reason, until it is
    released here; what expired there is known as expired.
    """
    from tracksworn.records.archive.bags import take_in

    status = Exit.DONE
    for name, became in take_in(archive, bag):
        if isinstance(became, TrackswornError):
            say(visible(f"{name}: {became}"))
            status = Exit.FAULTS
        else:
            _say_taken(became)
    return status


@_command(changes=True)
@click.argument("number", metavar="NUMBER")
@click.option("--reason", required=True, help="Why; it is logged for good.")
def hold(archive: "Archive", number: str, reason: str) -> None:
    """Keep a record from expiring until it is released."""
    click.echo(f"{number} is held, act {archive.hold(number, reason).act}")


@_command(changes=True)
@click.argument("number", metavar="NUMBER")
@click.option("--reason", required=True, help="Why; it is logged for good.")
@click.option("--act", type=int, metavar="N", help="Which hold, where there are several: the number of its act.")
def release(archive: "Archive", number: str, reason: str, act: int | None) -> None:
    """End a hold; `show` tells which there are."""
    click.echo(visible(f"{number} is released from: {archive.release(number, reason, act).reason}"))


@_command(changes=True)
@click.option("--older-than", required=True, metavar="TIME", help="How long records are kept: 10y, 18m, 90d.")
@click.option("--on", required=True, type=DAY, metavar="DATE", help="The day from which that is counted back.")
@click.option("--list", "only_list", is_flag=True, help="Print what would expire, and remove nothing.")
def expire(archive: "Archive", older_than: str, on: Any, only_list: bool) -> None:
    """Remove for good the files of every record of which all documents were issued longer ago than that.

    What is on hold stays. A tombstone tells what was there; log and proofs stay as they are.

    \b
        tracksworn archive expire --older-than 10y --on 2041-05-01 --list --in records
    """
    if only_list:
        for number in archive.due(older_than, on.date()):
            click.echo(number)
        return
    for record in archive.expire(older_than, on.date()):
        click.echo(f"{record.number} has expired; documents removed: {len(record.documents)}")


@_command()
def rebuild(archive: "Archive") -> None:
    """Make the index anew from files and log, wherever it is; nothing else is changed."""
    archive.rebuild()
    say(f"the index is made anew from {archive.log.checkpoint().size} acts")


@_command()
@click.argument("number", metavar="NUMBER")
@REVISION
@DOCUMENT
def proof(archive: "Archive", number: str, revision: int | None, document: str | None) -> None:
    """Print what shows to anybody, without this program, that a document was put into the log.

    HOW-TO-CHECK.txt in every exported bag says how it is checked.
    """
    click.echo(json.dumps(archive.proof(number, revision, document), indent=1, ensure_ascii=False))


@_command()
@click.option("--since", type=GivenPath(dir_okay=False), metavar="FILE", help="An older checkpoint, as it was printed.")
def checkpoint(archive: "Archive", since: Path | None) -> None:
    """Print the log's signed checkpoint, to be kept elsewhere; or what shows that the log only grew since an older one.

    Whoever keeps a checkpoint where nobody else can change it can show later that nothing of it was taken back.
    """
    if since is None:
        click.echo(archive.log.checkpoint().json().decode("ascii"), nl=False)
        return
    click.echo(json.dumps(archive.log.growth_since(since.read_bytes()), indent=1))


def _say_taken(became: "Held | TakenTombstone | TakenHold") -> None:
    from tracksworn.records.archive.held import Held, TakenTombstone

    if isinstance(became, Held):
        _say_added(became)
    elif isinstance(became, TakenTombstone):
        already = "" if became.new else " already"
        click.echo(f"{became.number} is known as expired{already}, {became.expired[:10]}; its files are gone")
    else:
        hold, already = became.hold, "" if became.new else " already"
        click.echo(visible(f"{became.number} is held{already} since {hold.since}, act {hold.act}: {hold.reason}"))


def _say_added(held: "Held") -> None:
    fresh, known = ("renewed", "held already in a renewed form") if held.renewed else ("added", "held already")
    click.echo(f"{held.name} {fresh if held.new else known}, SHA-256 {held.sha256}")


def _print(found: "Iterable[Held]", *, as_json: bool) -> None:
    if as_json:
        click.echo(json.dumps([_plain(held) for held in found], indent=1, ensure_ascii=False))
        return
    for held in found:
        plain = _plain(held)
        said = (plain.get(key) for key in ("inspected", "maker", "model", "serial", "firm", "stage"))
        gone = f"expired {held.expired[:10]}{' elsewhere' if held.elsewhere else ''}" if held.expired else None
        words = [held.name, *(str(word) for word in said if word), *filter(None, (gone,))]
        click.echo(visible("  ".join(words)))


def _plain(held: "Held") -> dict[str, Any]:
    plain: dict[str, Any] = {"number": held.number, "revision": held.revision, "document": held.document or None}
    plain |= {"sha256": held.sha256}
    plain |= {"bytes": held.size, "added": held.added, "act": held.act, "expired": held.expired}
    plain |= {"elsewhere": True} if held.elsewhere else {}
    if held.facts is not None:
        facts = held.facts
        plain |= {"maker": facts.maker, "model": facts.model, "serial": facts.serial}
        plain |= {"inspector": facts.inspector or None, "firm": facts.firm}
        plain |= {"inspected": facts.inspected.isoformat(), "issued": facts.issued.isoformat()}
        plain |= {"stage": facts.stage and str(facts.stage)}
    return plain
