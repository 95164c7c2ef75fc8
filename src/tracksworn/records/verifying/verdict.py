"""What a verification says: six answers, each of which begins as not proven."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Final, Protocol

from tracksworn.records.standing import Claim, Standing


class Name(StrEnum):
    """What is asked of every file, in the order in which it is printed."""

    INTEGRITY = "integrity"
    SIGNER = "signer"
    TIME = "time"
    ARITHMETIC = "arithmetic"
    PAGES = "pages"
    ARCHIVE = "archive"


class State(StrEnum):
    """How a question is answered; only `passed` opens anything."""

    PASSED = "passed"
    FAILED = "failed"
    CANNOT_TELL = "cannot tell"


NEEDED: Final = (Name.INTEGRITY, Name.SIGNER, Name.ARITHMETIC, Name.PAGES)
"""A verification passes only if all of these have passed."""


@dataclass(frozen=True, slots=True)
class Answer:
    """One of the six answers, and in a sentence why."""

    name: Name
    state: State
    because: str

    @property
    def failed(self) -> bool:
        """Whether it failed, which is more than that it cannot be told."""
        return self.state is State.FAILED


@dataclass(frozen=True, slots=True)
class Verdict:
    """The six answers about one file, and which record it says that it is, if it is what was sealed."""

    answers: tuple[Answer, ...]
    claim: Claim | None = None

    def state(self, name: Name) -> State:
        """How one question was answered; what nobody answered cannot be told."""
        found = [answer.state for answer in self.answers if answer.name is name]
        return found[0] if len(found) == 1 else State.CANNOT_TELL

    @property
    def passed(self) -> bool:
        """Whether all that is needed has passed."""
        return all(self.state(name) is State.PASSED for name in NEEDED)

    def plain(self, file: str) -> Mapping[str, object]:
        """The verdict as it is published in JSON, for a file as it was named."""
        states = {str(name): str(self.state(name)) for name in Name}
        return {"file": file, **states, "why": [f"{answer.name}: {answer.because}" for answer in self.answers]}


class Archive(Protocol):
    """What verifying asks of an archive."""

    def standing(self, claim: Claim) -> Standing:
        """How a file stands there that claims to be a document of a record."""
