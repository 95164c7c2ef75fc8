"""`tracksworn seal`: a signed document with its data inside."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracksworn.cli import options
from tracksworn.cli.exits import Exit
from tracksworn.cli.given import GivenPath, OneOf
from tracksworn.cli.reading import read_or_say
from tracksworn.cli.sealing_options import Sealing, sealing, tell_what_a_seal_does_not_show
from tracksworn.documents.render.files import Format, Sheet
from tracksworn.inspection.faults import Fault, Faulty, WrongUse
from tracksworn.records.sealing.signer import Level

if TYPE_CHECKING:
    from tracksworn.records.sealing.seal import Manner
    from tracksworn.records.sealing.signer import Signer


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked for on the command line."""

    inspection: Path
    to: Path
    of_seal: Sealing
    document: Sheet | None
    renew: bool
    language: str | None
    units: str | None
    paper: str | None

    @property
    def sealed_before(self) -> bool:
        """Whether it is a file to countersign or renew rather than an inspection."""
        return self.inspection.suffix.lower() == ".pdf"

    @property
    def makes(self) -> bool:
        """Whether it says how a document is to be made."""
        return bool(self.document or self.language or self.units or self.paper or self.of_seal.countersign)


@click.command()
@click.argument("inspection", type=GivenPath(), metavar="INSPECTION")
@click.option("--to", required=True, type=GivenPath(file_okay=False), help="The folder for the sealed document.")
@sealing
@click.option("--document", type=OneOf(Sheet), help="Which document to make and seal; else the full report.")
@click.option(
    "--renew",
    is_flag=True,
    help="Add an archive timestamp to a PDF sealed at level lt or lta, given in the place of INSPECTION, before the "
    "certificate of its last timestamp ends: with --timestamp and --trust, without a key.",
)
@options.language
@options.units
@options.paper
def seal(**given: Any) -> int:
    """Make a document of an inspection and seal it: signed, with its data inside.

    INSPECTION is an inspection.yaml or the folder that holds it. What is written has the document's own name and says
    on its pages that the file is sealed. Any PDF reader can check the signature; `tracksworn verify` also recomputes
    the figures. After sealing no change is allowed, save one countersignature where --countersign left room for it:
    give that sealed PDF in the place of INSPECTION, and the countersigner's key. With any fault nothing is written.

    \b
        tracksworn seal my-machine --key practice.p12 --to sealed
        tracksworn seal my-machine --key firm.p12 --to sealed --document certificate --countersign
        tracksworn seal sealed/MPS-2031-0418-r0-certificate.pdf --key client.p12 --to countersigned
        tracksworn seal kept.pdf --renew --timestamp URL --trust authorities.pem --to renewed
    """
    asked = Asked(of_seal=Sealing.among(given), **given)
    if asked.renew:
        _write(asked.to, _renewed(asked))
        return Exit.DONE
    manner = _manner(asked)
    with asked.of_seal.signer() as signer:
        made = _countersigned(asked, signer, manner) if asked.sealed_before else _sealed(asked, signer, manner)
    if isinstance(made, Exit):
        return made
    _write(asked.to, made)
    tell_what_a_seal_does_not_show(signer, manner)
    return Exit.DONE


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    from tracksworn.documents.writing import write_together

    for path in write_together(folder, files):
        click.echo(os.fsencode(path))


def _renewed(asked: Asked) -> Mapping[str, bytes]:
    from tracksworn.records.renewal import renew
    from tracksworn.records.sealing.authority import Authority

    if not asked.sealed_before:
        raise WrongUse("only a sealed PDF is renewed: name one in the place of the inspection")
    of_seal = asked.of_seal
    if asked.makes or of_seal.names_a_key or of_seal.level:
        raise WrongUse(
            "a sealed PDF is renewed as it is, by an authority: leave out key and password, level, and what makes a "
            "document"
        )
    if of_seal.timestamp is None or not of_seal.trust:
        raise WrongUse(
            "--renew needs --timestamp URL, and with --trust the roots of the last timestamp and of the new one"
        )
    return {asked.inspection.name: renew(asked.inspection.read_bytes(), Authority(of_seal.timestamp), of_seal.roots())}


def _manner(asked: Asked) -> "Manner":
    manner = asked.of_seal.manner()
    if asked.sealed_before:
        _refuse_to_make_anew(asked, manner.level)
    return manner


def _refuse_to_make_anew(asked: Asked, level: Level) -> None:
    if asked.makes:
        raise WrongUse("a sealed PDF is countersigned as it is: leave out what says how a document is made")
    if level not in (Level.B, Level.T):
        raise WrongUse("a countersignature is made at level b or t: the seal allows nothing to be added beside it")


def _countersigned(asked: Asked, signer: "Signer", manner: "Manner") -> Mapping[str, bytes]:
    from tracksworn.records.countersigning import countersign

    return {asked.inspection.name: countersign(asked.inspection.read_bytes(), signer, at=_now(), manner=manner)}


def _sealed(asked: Asked, signer: "Signer", manner: "Manner") -> Mapping[str, bytes] | Exit:
    """The sealed document by its name; or the exit status for what was said to be wrong."""
    from tracksworn.documents.certificate.no_terms import NoTerms
    from tracksworn.documents.report import make_report
    from tracksworn.records.sealing.seal import seal

    dossier = read_or_say(asked.inspection)
    if isinstance(dossier, Exit):
        return dossier
    try:
        files = make_report(
            dossier,
            formats=[Format.PDF],
            document=asked.document or Sheet.FULL,
            language=asked.language,
            units=asked.units,
            paper=asked.paper,
            sealed=True,
        )
    except NoTerms as error:
        raise Faulty([Fault(asked.inspection, 1, 1, str(error))]) from error
    return {
        name: seal(content, signer, at=_now(), manner=manner, countersign=asked.of_seal.countersign)
        for name, content in files.items()
    }


def _now() -> datetime:
    return datetime.now(UTC).replace(microsecond=0)
