"""What was observed, and what was not seen."""

from collections.abc import Iterator

from tracksworn.assessment.model import Basis, Row
from tracksworn.documents.full import observed
from tracksworn.documents.full.context import Context, subject
from tracksworn.documents.full.gauges import reason
from tracksworn.documents.full.photos import observation_photos
from tracksworn.documents.full.view import NotSeen, NotSeenView, ObservationView
from tracksworn.documents.words import labels
from tracksworn.documents.words.language import N_
from tracksworn.inspection.vocabulary import Grade


def observation_views(context: Context) -> tuple[ObservationView, ...]:
    """All observations, numbered in the order of the inspection."""
    return tuple(_observation(index, context) for index in range(len(context.inspection.observations)))


def _observation(index: int, context: Context) -> ObservationView:
    observation = context.inspection.observations[index]
    return ObservationView(
        number=str(index + 1),
        about=context.figures.part(observation.at),
        seen=observed.signs(observation, context),
        grade=observed.grade(observation, context),
        size=context.figures.length(observation.size) if observation.size is not None else "",
        note=observation.note or "",
        looked=observation.grade is Grade.NONE,
        photos=observation_photos(index, context),
        findings=tuple(
            str(number)
            for number, finding in enumerate(context.assessment.findings, start=1)
            if index in finding.observations
        ),
    )


def not_seen(context: Context) -> NotSeen:
    """What was not seen, by its reason, and what that leaves open."""
    by_reason: dict[str, list[Row]] = {}
    for row in context.assessment.components:
        if row.basis is Basis.NOT_SEEN:
            by_reason.setdefault(reason(row, context), []).append(row)
    parts = tuple(
        NotSeenView(labels.opening(context.figures.parts(map(subject, rows))), why) for why, rows in by_reason.items()
    )
    return NotSeen(parts, tuple(_sentences(context)))


def left_out(context: Context) -> Iterator[str]:
    """What has no percent, what could not be reached, and what a look of this kind never sees, a sentence each."""
    yield from _without_percent(context)
    yield from _never_seen(context)


def _sentences(context: Context) -> Iterator[str]:
    overall, figures = context.assessment.overall, context.figures
    yield from _without_percent(context)
    if overall.percent_worn is not None and overall.ceiling - overall.floor > 0.5:
        yield context.say(
            N_("Were all that is unseen as new, the whole would be {floor} worn; were it all at its limit, {ceiling}."),
            floor=figures.per_cent(overall.floor),
            ceiling=figures.per_cent(overall.ceiling),
        )
    yield from _never_seen(context)


def _without_percent(context: Context) -> Iterator[str]:
    bare = [row for row in context.assessment.components if row.basis is Basis.MEASURED and row.percent_worn is None]
    if bare:
        parts = context.figures.parts(map(subject, bare))
        yield context.say(
            N_("Measured, but without percent, as no chart gives new size and limit: {parts}."), parts=parts
        )


def _never_seen(context: Context) -> Iterator[str]:
    if context.inspection.limits_of_access:
        limits = context.inspection.limits_of_access.rstrip(".")
        yield context.say(N_("Limits of access: {limits}."), limits=limits)
    yield context.say(
        N_("A look of this kind takes nothing apart: wear within joints, bearings and seals stays hidden.")
    )
