"""`tracksworn seal`: a signed document with its data inside."""

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracksworn.cli import options
from tracksworn.cli.exits import Exit, say
from tracksworn.cli.given import GivenPath, OneOf
from tracksworn.cli.passwords import password, password_fd
from tracksworn.cli.reading import read_or_say
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
    key: Path | None
    pkcs11: str | None
    document: Sheet | None
    timestamp: str | None
    level: Level | None
    trust: tuple[Path, ...]
    countersign: bool
    renew: bool
    password_fd: int | None
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
        return bool(self.document or self.language or self.units or self.paper or self.countersign)


@click.command()
@click.argument("inspection", type=GivenPath(), metavar="INSPECTION")
@click.option("--to", required=True, type=GivenPath(file_okay=False), help="The folder for the sealed document.")
@click.option(
    "--key", type=GivenPath(dir_okay=False), metavar="FILE.p12", help="The key with its certificate, PKCS#12."
)
@click.option(
    "--pkcs11",
    metavar="URI",
    help="In place of --key, a key on a token or card: pkcs11:token=NAME;object=KEY?module-path=LIBRARY (RFC 7512).",
)
@click.option("--document", type=OneOf(Sheet), help="Which document to make and seal; else the full report.")
@click.option("--timestamp", metavar="URL", help="A timestamping authority (RFC 3161), for levels t, lt and lta.")
@click.option(
    "--level",
    type=OneOf(Level),
    help="b: the signature alone; t: with a timestamp; lt: with revocation data too; lta: with an archive timestamp "
    "over all of it. Else t where an authority is given, and b without one.",
)
@click.option(
    "--trust",
    multiple=True,
    type=GivenPath(dir_okay=False),
    metavar="CERT",
    help="For levels lt and lta: a root certificate (PEM) that the key's or the authority's leads to; several times.",
)
@click.option(
    "--countersign", is_flag=True, help="Leave room for one later signature; without it the seal allows none."
)
@click.option(
    "--renew",
    is_flag=True,
    help="Add an archive timestamp to a PDF sealed at level lt or lta, given in the place of INSPECTION, before the "
    "certificate of its last timestamp ends: with --timestamp and --trust, without a key.",
)
@password_fd
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
    asked = Asked(**given)
    if asked.renew:
        _write(asked.to, _renewed(asked))
        return Exit.DONE
    manner = _manner(asked)
    with _signer(asked) as signer:
        made = _countersigned(asked, signer, manner) if asked.sealed_before else _sealed(asked, signer, manner)
    if isinstance(made, Exit):
        return made
    _write(asked.to, made)
    _tell(signer, manner)
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
    if asked.makes or asked.key or asked.pkcs11 or asked.level:
        raise WrongUse(
            "a sealed PDF is renewed as it is, by an authority: leave out key, level and what makes a document"
        )
    if asked.timestamp is None or not asked.trust:
        raise WrongUse(
            "--renew needs --timestamp URL, and with --trust the roots of the last timestamp and of the new one"
        )
    return {asked.inspection.name: renew(asked.inspection.read_bytes(), Authority(asked.timestamp), _roots(asked))}


def _roots(asked: Asked) -> tuple[bytes, ...]:
    from tracksworn.records.sealing.certificates import read_certificates

    return tuple(each for path in asked.trust for each in read_certificates(path))


def _manner(asked: Asked) -> "Manner":
    from tracksworn.records.sealing.authority import Authority
    from tracksworn.records.sealing.seal import Manner

    if (asked.key is None) is (asked.pkcs11 is None):
        raise WrongUse("name one key: --key FILE.p12, or --pkcs11 URI for one on a token")
    level = asked.level or (Level.B if asked.timestamp is None else Level.T)
    if level is Level.B and asked.timestamp is not None:
        raise WrongUse("level b holds no timestamp: leave --timestamp out, or ask for level t, lt or lta")
    if level is not Level.B and asked.timestamp is None:
        raise WrongUse(f"level {level} needs a timestamping authority: name one with --timestamp URL")
    if asked.trust and level not in (Level.LT, Level.LTA):
        raise WrongUse("--trust is for levels lt and lta, which gather revocation data up to a root")
    if asked.sealed_before:
        _refuse_to_make_anew(asked, level)
    return Manner(level, None if asked.timestamp is None else Authority(asked.timestamp), _roots(asked))


def _refuse_to_make_anew(asked: Asked, level: Level) -> None:
    if asked.makes:
        raise WrongUse("a sealed PDF is countersigned as it is: leave out what says how a document is made")
    if level not in (Level.B, Level.T):
        raise WrongUse("a countersignature is made at level b or t: the seal allows nothing to be added beside it")


def _countersigned(asked: Asked, signer: "Signer", manner: "Manner") -> Mapping[str, bytes]:
    from tracksworn.records.sealing.seal import countersign

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
        name: seal(content, signer, at=_now(), manner=manner, countersign=asked.countersign)
        for name, content in files.items()
    }


def _now() -> datetime:
    return datetime.now(UTC).replace(microsecond=0)


@contextmanager
def _signer(asked: Asked) -> "Iterator[Signer]":
    if asked.key is not None:
        from tracksworn.records.sealing.pkcs12 import from_pkcs12, opens_without_password

        content = asked.key.read_bytes()
        needs = not opens_without_password(content)
        yield from_pkcs12(content, password(f"Password of {asked.key}", asked.password_fd) if needs else None)
        return
    from tracksworn.records.sealing.token import Token, opened

    token = Token.parse(asked.pkcs11 or "")
    with opened(token, password("PIN of the token", asked.password_fd)) as signer:
        yield signer


def _tell(signer: "Signer", manner: "Manner") -> None:
    """What the seal does not show, where it is not much."""
    from tracksworn.records.sealing.fitness import vouched_for_by_itself

    if vouched_for_by_itself(signer):
        say(
            "The certificate is signed by its own key: the seal shows that the file was not changed, not who sealed it."
        )
    if manner.level is Level.B:
        say("No authority attests the time: when it was sealed rests on this machine's clock.")
