"""Whether a file is one that is held already, signed or timestamped further as its seal allows."""

from tracksworn.records.archive.files import sha256
from tracksworn.records.archive.held import Held, NotTaken


def check_grown(held: Held, kept: bytes | None, content: bytes) -> None:
    """Let a file through that begins with what is held, and to which only what its seal allows was appended.

    `kept` are the bytes that are held, as far as they can be had. Raises NotTaken with the reason for any other file.
    """
    if sha256(content[: held.size]) != held.sha256:
        raise NotTaken(_other(held, kept, content))
    if because := _not_allowed(held, content):
        raise NotTaken(
            f"{held.name} is held already, and this file goes on where that ends, but not as a seal allows: {because}; "
            "what is held stays as it is"
        )


def _not_allowed(held: Held, content: bytes) -> str | None:
    from tracksworn.records.sealing.quiet import quiet  # noqa: PLC0415 - these take a second
    from tracksworn.records.verifying.integrity import judge_integrity  # noqa: PLC0415

    with quiet():
        answer, sealed = judge_integrity(content)
    if sealed is None:
        return answer.because
    return "what is held bears no seal" if len(sealed.part) > held.size else None


def _other(held: Held, kept: bytes | None, content: bytes) -> str:
    if kept and kept.startswith(content):
        return f"{held.name} is held already in a later form, which begins with this very file; nothing is to be added"
    return (
        f"{held.name} is held already with other bytes (SHA-256 {held.sha256[:16]}…, of this file "
        f"{sha256(content)[:16]}…); what has changed needs a revision of its own"
    )
