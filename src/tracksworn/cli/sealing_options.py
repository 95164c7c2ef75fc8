"""What it takes to seal, as several commands are told it: a key, and how far the seal goes."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracksworn.cli.exits import say
from tracksworn.cli.given import GivenPath, OneOf
from tracksworn.cli.passwords import password, password_fd
from tracksworn.inspection.faults import WrongUse
from tracksworn.records.sealing.signer import Level

if TYPE_CHECKING:
    from tracksworn.records.sealing.seal import Manner
    from tracksworn.records.sealing.signer import Signer

_OPTIONS = (
    click.option(
        "--key", type=GivenPath(dir_okay=False), metavar="FILE.p12", help="The key with its certificate, PKCS#12."
    ),
    click.option(
        "--pkcs11",
        metavar="URI",
        help="In place of --key, a key on a token or card: pkcs11:token=NAME;object=KEY?module-path=LIBRARY "
        "(RFC 7512).",
    ),
    click.option("--timestamp", metavar="URL", help="A timestamping authority (RFC 3161), for levels t, lt and lta."),
    click.option(
        "--level",
        type=OneOf(Level),
        help="b: the signature alone; t: with a timestamp; lt: with revocation data too; lta: with an archive "
        "timestamp over all of it. Else t where an authority is given, and b without one.",
    ),
    click.option(
        "--trust",
        multiple=True,
        type=GivenPath(dir_okay=False),
        metavar="CERT",
        help="For levels lt and lta: a root certificate (PEM) that the key's or the authority's leads to; "
        "several times.",
    ),
    click.option(
        "--countersign", is_flag=True, help="Leave room for one later signature; without it the seal allows none."
    ),
    password_fd,
)


def sealing(command: Callable[..., Any]) -> Callable[..., Any]:
    """The options, in the order in which help shows them."""
    for option in reversed(_OPTIONS):
        command = option(command)
    return command


@dataclass(frozen=True, slots=True)
class Sealing:
    """What was said of key and seal."""

    key: Path | None
    pkcs11: str | None
    timestamp: str | None
    level: Level | None
    trust: tuple[Path, ...]
    countersign: bool
    password_fd: int | None

    @classmethod
    def among(cls, given: dict[str, Any]) -> "Sealing":
        """What was said of it among all that was given, taken out of there."""
        return cls(**{name: given.pop(name) for name in cls.__dataclass_fields__})

    @property
    def names_a_key(self) -> bool:
        """Whether anything was of a key: which it is, or where its password comes from."""
        return any(value is not None for value in (self.key, self.pkcs11, self.password_fd))

    @property
    def said(self) -> bool:
        """Whether anything was."""
        return self.names_a_key or bool(self.timestamp or self.level or self.trust or self.countersign)

    def manner(self) -> "Manner":
        """How far the seal goes. Raises WrongUse where that does not go together."""
        from tracksworn.records.sealing.authority import Authority
        from tracksworn.records.sealing.seal import Manner

        if (self.key is None) is (self.pkcs11 is None):
            raise WrongUse("name one key: --key FILE.p12, or --pkcs11 URI for one on a token")
        level = self.level or (Level.B if self.timestamp is None else Level.T)
        if level is Level.B and self.timestamp is not None:
            raise WrongUse("level b holds no timestamp: leave --timestamp out, or ask for level t, lt or lta")
        if level is not Level.B and self.timestamp is None:
            raise WrongUse(f"level {level} needs a timestamping authority: name one with --timestamp URL")
        if self.trust and level not in (Level.LT, Level.LTA):
            raise WrongUse("--trust is for levels lt and lta, which gather revocation data up to a root")
        return Manner(level, None if self.timestamp is None else Authority(self.timestamp), self.roots())

    def roots(self) -> tuple[bytes, ...]:
        """The certificates that are trusted, DER."""
        from tracksworn.records.sealing.certificates import read_certificates

        return tuple(each for path in self.trust for each in read_certificates(path))

    @contextmanager
    def signer(self) -> "Iterator[Signer]":
        """The key, open; its password from the descriptor, the environment or a prompt."""
        if self.key is not None:
            from tracksworn.records.sealing.pkcs12 import from_pkcs12, opens_without_password

            content = self.key.read_bytes()
            needs = not opens_without_password(content)
            yield from_pkcs12(content, password(f"Password of {self.key}", self.password_fd) if needs else None)
            return
        from tracksworn.records.sealing.token import Token, opened

        token = Token.parse(self.pkcs11 or "")
        with opened(token, password("PIN of the token", self.password_fd)) as signer:
            yield signer


def tell_what_a_seal_does_not_show(signer: "Signer", manner: "Manner") -> None:
    """Where that is not much."""
    from tracksworn.records.sealing.fitness import vouched_for_by_itself

    if vouched_for_by_itself(signer):
        say(
            "The certificate is signed by its own key: the seal shows that the file was not changed, not who sealed it."
        )
    if manner.level is Level.B:
        say("No authority attests the time: when it was sealed rests on this machine's clock.")
