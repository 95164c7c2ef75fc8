"""`tracksworn batch`: the documents of a whole sale, and its index."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

from tracksworn.cli import options
from tracksworn.cli.archive import opened
from tracksworn.cli.exits import say
from tracksworn.cli.given import GivenPath, SomeOf, Title
from tracksworn.cli.sealing_options import Sealing, sealing, tell_what_a_seal_does_not_show
from tracksworn.documents.render.files import Format, Sheet
from tracksworn.inspection.faults import WrongUse

if TYPE_CHECKING:
    from tracksworn.batch.archiving import Archivist
    from tracksworn.batch.order import Order, Templates, Workers
    from tracksworn.batch.sealing import Sealer


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked for on the command line."""

    sale: Path
    to: str
    documents: tuple[Sheet, ...]
    formats: tuple[Format, ...]
    catalogue: str | None
    title: str
    templates: Path | None
    language: str | None
    units: str | None
    paper: str | None
    workers: int | None
    cluster: str | None
    strict: bool
    seal: bool
    archive: bool
    place: Path | None


@click.command()
@click.argument("sale", type=GivenPath(), metavar="FOLDER-OR-CSV")
@click.option("--to", required=True, metavar="DIR", help="The folder for documents and index; or an address, as s3://…")
@click.option(
    "--document",
    "documents",
    type=SomeOf(Sheet),
    metavar="[full,listing,certificate]",
    default=Sheet.LISTING.value,
    show_default=True,
    help="What to make of each lot; several with commas between.",
)
@options.formats
@click.option(
    "--catalogue",
    type=click.Choice(["lines", "blocks"]),
    help="Also a catalogue for print, catalogue.pdf, with a line or a block for each lot.",
)
@click.option(
    "--title",
    type=Title(),
    default="",
    metavar="TEXT",
    help="What the sale is called, and when it is, on index and catalogue.",
)
@options.templates
@options.language
@options.units
@options.paper
@click.option(
    "--workers", type=click.IntRange(min=1), metavar="N", help="Processes that make lots; else one for each core."
)
@click.option(
    "--cluster",
    metavar="ADDRESS",
    help="In place of processes here, the workers of a Dask scheduler, as tcp://10.0.0.5:8786; the README tells how "
    "to start one.",
)
@click.option("--strict", is_flag=True, help="Stop at the first lot with faults; nothing is written after it.")
@click.option("--seal", is_flag=True, help="Seal every PDF, with the options below as `tracksworn seal` has them.")
@sealing
@click.option("--archive", is_flag=True, help="Put every PDF into an archive, once it is written.")
@click.option(
    "--in",
    "place",
    type=GivenPath(file_okay=False),
    envvar="TRACKSWORN_ARCHIVE",
    show_envvar=True,
    metavar="DIR",
    help="The archive's folder; one is begun where there is none.",
)
def batch(**given: Any) -> int:
    """Write the documents of many inspections, and an index of them.

    FOLDER-OR-CSV is a folder, in which every inspection.yaml is a lot unless another there names it as an earlier one,
    or a list: CSV with a column `inspection`, a path from the list's folder, and, where wanted, `lot` and `documents`
    (with a blank between several). Only what has changed since the last run is made anew; after a run that was
    interrupted the same command goes on. A lot with faults keeps no other from being done: faults are told at the end,
    and the exit status is 1.

    \b
        tracksworn batch lots --to sale
        tracksworn batch lots.csv --to sale --document listing --format pdf,html --catalogue lines
        tracksworn batch lots.csv --to sale --seal --key firm.p12 --timestamp URL --archive --in records
    """
    of_seal = Sealing.among(given)
    asked = Asked(**given)
    _refuse_what_does_not_go_together(asked, of_seal)
    from tracksworn.batch.journal import Journal
    from tracksworn.batch.places import place_of
    from tracksworn.batch.program import program_digest
    from tracksworn.batch.run import Batch
    from tracksworn.cli.lots_told import run_and_tell
    from tracksworn.inspection.sale_list import read_sale
    from tracksworn.records.processes import held_back

    sale = read_sale(asked.sale)
    place, base = place_of(asked.to), asked.sale if asked.sale.is_dir() else asked.sale.parent
    order, workers = _order(asked), _workers(asked)  # which may be wrong use, before a password is asked for
    with (
        held_back(signal.SIGPIPE),  # whoever reads the names may go away: then, too, all processes are ended first
        _sealer(asked, of_seal) as sealer,
        place.held() as unguarded,
        _archivist(asked) as archivist,
    ):
        if unguarded:
            say(unguarded)
        journal = Journal(place, base, order, program_digest(), sealer.identity if sealer else "")
        lots = Batch(sale.lots, journal, workers, sealer, archivist, strict=asked.strict)
        return run_and_tell(lots, asked.catalogue, sale.earlier, title=asked.title)


def _refuse_what_does_not_go_together(asked: Asked, of_seal: Sealing) -> None:
    if not asked.to:
        raise WrongUse("a path is missing behind --to")
    if asked.cluster and asked.workers:
        raise WrongUse("a cluster has workers of its own: leave --workers or --cluster out")
    if of_seal.said and not asked.seal:
        raise WrongUse("these options are for sealing: add --seal, or leave them out")
    if asked.seal and Format.PDF not in asked.formats:
        raise WrongUse("only a PDF can be sealed: add pdf to --format, or leave --seal out")
    if asked.seal and asked.templates:
        raise WrongUse("a sealed document is made by the program's own templates alone: leave --templates out")
    if not asked.archive and click.get_current_context().get_parameter_source("place") is ParameterSource.COMMANDLINE:
        raise WrongUse("--in names an archive: add --archive, or leave --in out")
    if asked.archive and asked.place is None:
        raise WrongUse("which archive? name its folder with --in DIR")
    if asked.archive and not asked.seal and len(asked.documents) > 1:
        raise WrongUse(
            "an archive takes one document of a lot, several only if they are sealed: add --seal, or ask for one"
        )
    if asked.archive and Format.PDF not in asked.formats:
        raise WrongUse("only a PDF goes into an archive: add pdf to --format, or leave --archive out")


@contextmanager
def _sealer(asked: Asked, of_seal: Sealing) -> "Iterator[Sealer | None]":
    if not asked.seal:
        yield None
        return
    from tracksworn.batch.sealing import AT_ONCE, Sealer, now
    from tracksworn.records.sealing.fitness import check_fit

    manner = of_seal.manner()
    with of_seal.signer() as signer:
        check_fit(signer, now())
        at_once = 1 if of_seal.pkcs11 else AT_ONCE
        sealer = Sealer(signer, manner, countersign=of_seal.countersign, at_once=at_once)
        try:
            yield sealer
        finally:
            say(str(sealer.tally))
        tell_what_a_seal_does_not_show(signer, manner)


@contextmanager
def _archivist(asked: Asked) -> "Iterator[Archivist | None]":
    if not asked.archive or asked.place is None:
        yield None
        return
    from tracksworn.batch.archiving import Archivist

    with opened(asked.place, new=True) as archive:
        archivist = Archivist(archive)
        yield archivist
        say(f"{archivist.added} put into the archive")


def _order(asked: Asked) -> "Order":
    from tracksworn.batch.order import Order

    return Order(
        tuple(map(str, asked.documents)),
        tuple(map(str, asked.formats)),
        asked.language,
        asked.units,
        asked.paper,
        _templates(asked.templates),
        sealed=asked.seal,
    )


def _templates(folder: Path | None) -> "Templates | None":
    from tracksworn.batch.order import Templates
    from tracksworn.cli.reading import read_own

    own = read_own(folder)
    return None if own is None else Templates(own.folder, tuple(sorted(own.texts.items())))


def _workers(asked: Asked) -> "Workers":
    if asked.cluster is not None:
        from tracksworn.batch.cluster import Cluster, refuse_no_address

        refuse_no_address(asked.cluster)
        return Cluster(asked.cluster)
    from tracksworn.batch.running import Processes

    return Processes(asked.workers)
