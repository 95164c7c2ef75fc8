"""What keeps a record from expiring, as it goes to another archive."""

import json
from collections.abc import Sequence
from typing import Final

from tracksworn.records.archive.held import MOMENT, Hold, NotTaken

HOLDS: Final = "holds.json"
KIND: Final = "holds 1"
LONGEST_REASON: Final = 2000


def holds_json(number: str, holds: Sequence[Hold]) -> bytes:
    """The holds of a record, for somebody without this program."""
    said = [{"reason": hold.reason, "since": hold.since, "act": hold.act} for hold in holds]
    plain = {"tracksworn": KIND, "number": number, "holds": said}
    return json.dumps(plain, indent=1, ensure_ascii=False).encode("utf-8") + b"\n"


def read_holds(content: bytes) -> tuple[str, tuple[Hold, ...]]:
    """Which record is held, and why; the acts are those of the archive that it comes from. Raises NotTaken."""
    try:
        plain = json.loads(content)
        holds = tuple(Hold(one["reason"], one["since"], one["act"]) for one in plain["holds"])
        if plain["tracksworn"] != KIND or not all(map(_is_sound, holds)):
            raise ValueError
        return str(plain["number"]), holds
    except (ValueError, KeyError, TypeError, RecursionError):
        raise NotTaken("it does not say why a record is held, or was altered") from None


def plain_reason(reason: str) -> str | None:
    """A reason as it is logged, in one line; None where it is empty or too long."""
    said = " ".join(reason.split())
    return said if 0 < len(said) <= LONGEST_REASON else None


def _is_sound(hold: Hold) -> bool:
    return plain_reason(hold.reason) == hold.reason and MOMENT.fullmatch(hold.since) is not None
