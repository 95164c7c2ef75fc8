"""How a certificate is checked: the code, the digits, the ring."""

from collections.abc import Iterator

from tracksworn.documents.certificate.identification import record
from tracksworn.documents.certificate.view import Check
from tracksworn.documents.drawing.strokes import PARTS, Ring
from tracksworn.documents.fingerprint import GROUP
from tracksworn.documents.full.closing import seal_word
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import firm, revision_words
from tracksworn.documents.full.view import Branding
from tracksworn.documents.words import certificate as words


def check(context: Context, digits: str) -> Check:
    """Steps, code and digits."""
    address = _address(context)
    shown = address.partition("://")[2] or record(context)
    return Check(
        code=f"{address or record(context)}#sha256={digits}",
        code_alternative=context.say(words.CODE, address=shown, digits=in_groups(digits)),
        address=shown,
        steps=tuple(_steps(context, address)),
        lines=tuple(in_groups(part) for part in quarters(digits)),
    )


def ring(context: Context, digits: str, branding: Branding) -> Ring:
    """The ring: whole and in the accent where the file is sealed."""
    return Ring(
        digits=digits,
        words=(seal_word(context), revision_words(context)),
        sealed=context.sealed,
        accent=branding.accent,
        alternative=context.say(words.RING_SEALED if context.sealed else words.RING, digits=in_groups(digits)),
    )


def quarters(digits: str) -> tuple[str, ...]:
    """The digits in as many lines as ticks divide the ring into."""
    each = len(digits) // PARTS
    return tuple(digits[start : start + each] for start in range(0, len(digits), each))


def in_groups(digits: str) -> str:
    """`5de1 fca9 591b`, so that they can be compared by eye."""
    return " ".join(digits[start : start + GROUP] for start in range(0, len(digits), GROUP))


def _address(context: Context) -> str:
    """Where the firm keeps what belongs to the number; empty where its letterhead names no place."""
    letterhead = context.dossier.letterhead
    base = letterhead.records_at if letterhead is not None else None
    if not base:
        return ""
    return f"{base if base.endswith(('/', '=', '?', '-')) else base + '/'}{record(context)}"


def _steps(context: Context, address: str) -> Iterator[str]:
    yield context.say(words.SCAN if address else words.NO_ADDRESS, firm=firm(context))
    yield context.say(words.COMPARE)
    yield context.say(words.REPEAT)
