"""One cross-check under test."""

from dataclasses import dataclass

from finding_cases.walks import Walk

from tracksworn.assessment.sayings import Severity

ACT, WATCH, NOTE = Severity


@dataclass(frozen=True)
class Case:
    """A walk on which a check fires with these reasons about these parts, and a near miss on which it does not."""

    code: str
    severity: Severity
    fires: Walk
    near_miss: Walk
    because: tuple[str, ...]  # the codes of the reasons
    about: tuple[str, ...]  # all that the reasons speak of, in order
    title: str
    advice: str | None = None  # the code of the advice, where it is not the finding's own
    name: str = ""

    def __str__(self) -> str:
        return f"{self.code} {self.name}".strip()
