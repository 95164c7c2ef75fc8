"""Findings with their words, photos and sections."""

from dataclasses import dataclass, replace
from typing import Final

from tracksworn.assessment.sayings import Finding
from tracksworn.documents.drawing.profiles.profile import Profile
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.photos import observation_photos
from tracksworn.documents.full.profiles import other_sections, section_of
from tracksworn.documents.full.view import FindingView, PhotoView
from tracksworn.documents.words import labels
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.findings.together import told_together
from tracksworn.documents.words.language import NP_
from tracksworn.inspection.vocabulary import Component

NO_WEAR: Final = frozenset(
    {
        "not-seen",
        "hours-by-word",
        "hours-left-unknown",
        "stops-first",
        "chain-out-of-step",
        "wheels-out-of-step",
        "lives-in-step",
        "assumed-decides",
        "chart-stands-in",
        "gauge-past-calibration",
        "another-make",
        "adapted-part",
        "re-grousered",
        "seen-packed",
        "seen-slight",
        "seen-ungraded",
    }
)
"""Findings that speak of evidence, of hours or of what hides the wear, beside which a section would say nothing."""


@dataclass(frozen=True, slots=True)
class Told:
    """Findings as they are printed, the sections that none of them shows, and the findings in the same order."""

    findings: tuple[FindingView, ...]
    sections: tuple[Profile, ...]
    order: tuple[Finding, ...]


def findings_and_sections(context: Context) -> Told:
    """All findings, those in brief last, each photo and section at the first that needs it.

    Whoever numbers findings must do so in their `order`, so that the numbers run on as printed.
    """
    shown_components: set[Component] = set()
    shown_photos: set[str] = set()
    told = [
        (_finding(finding, shown_components, shown_photos, context), finding) for finding in context.assessment.findings
    ]
    told.sort(key=lambda one: one[0].brief)
    views = tuple(replace(view, number=str(number)) for number, (view, _) in enumerate(told, start=1))
    return Told(views, other_sections(shown_components, context), tuple(finding for _, finding in told))


def _finding(
    finding: Finding, shown_components: set[Component], shown_photos: set[str], context: Context
) -> FindingView:
    said = say_finding(replace(finding, because=told_together(finding.because)), context.figures)
    return FindingView(
        number="",
        code=finding.code,
        severity=finding.severity,
        severity_word=labels.word(finding.severity, context.language),
        title=said.title,
        reasons=said.reasons,
        advice=said.advice,
        look_for=said.look_for or "",
        photos=_photos(finding, shown_photos, context),
        observations=_observations(finding, context),
        profile=None if finding.code in NO_WEAR else section_of(finding.about, shown_components, context),
        pins=finding.observations,
    )


def _photos(finding: Finding, shown: set[str], context: Context) -> tuple[PhotoView, ...]:
    photos = [photo for index in finding.observations for photo in observation_photos(index, context)]
    new = tuple(photo for photo in photos if photo.name not in shown)
    shown.update(photo.name for photo in new)
    return new


def _observations(finding: Finding, context: Context) -> str:
    numbers = tuple(index + 1 for index in finding.observations)
    if not numbers:
        return ""
    return context.language.count(
        *NP_("observation {numbers}", "observations {numbers}"),
        len(numbers),
        numbers=labels.runs(numbers, context.language),
    )
