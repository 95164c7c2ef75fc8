"""How many links a chain has, and what holds it together."""

from collections.abc import Iterator

from tracksworn.assessment.findings.telling import finding, observations, seen, several
from tracksworn.assessment.sayings import Amount, Finding, Saying, Severity, Subject, Topic
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Grade, ObservedPlace, Side, Sign

COUNTS = tuple(Subject(Topic.LINK_COUNT, side) for side in Side)


def link_taken_out(so_far: SoFar) -> Iterator[Finding]:
    """A link was taken out, of whatever grade: adjuster and sag read as if the chain had not stretched.

    Source: TM 9-2350-267-10, p. 2-53: with the adjuster at its end the remedy is to take out one shoe; so a short
    count hides stretch and resets adjuster and sag.
    """
    told = seen(so_far, {Sign.LINK_TAKEN_OUT})
    if told:
        yield finding("link-taken-out", Severity.WATCH, (*observations(told), *_counts(so_far)), seen_there=told)


def links_unequal(so_far: SoFar) -> Iterator[Finding]:
    """The two sides have different counts: one chain was shortened, or the counting slipped.

    Source: as for a link taken out, which tells it where it was seen.
    """
    links = so_far.inspection.machine.links
    if None not in (links.left, links.right) and links.left != links.right and not _was_seen(so_far):
        yield finding("links-unequal", Severity.WATCH, _counts(so_far))


def links_short(so_far: SoFar) -> Iterator[Finding]:
    """Both chains, or the one counted, have fewer links than the chart's geometry: stretch has been taken up so.

    Source: as for a link taken out, which tells it where it was seen, as unequal counts do.
    """
    if _off_chart(so_far, -1):
        yield finding("links-short", Severity.NOTE, _counts(so_far))


def links_over(so_far: SoFar) -> Iterator[Finding]:
    """More links than the chart's geometry: the chart is of another track group, or the counting slipped.

    Common practice, no source: a chain is never lengthened, for its adjuster could not take up the slack.
    """
    if _off_chart(so_far, 1):
        yield finding("links-over", Severity.NOTE, _counts(so_far))


def loose_master_joint(so_far: SoFar) -> Iterator[Finding]:
    """A master joint that works loose opens the chain: however slight, it is not to be driven on.

    Common practice, no source: its bolts are turned once and not twice, and a loose joint frets its own faces away.
    Source for the danger: TM 5-2410-233-23, WP 0119: an opened track moves fast and uncontrolled.
    """
    named = seen(so_far, {Sign.LOOSE_MASTER_JOINT})
    told = tuple(dict.fromkeys([*named, *seen(so_far, {Sign.LOOSE, Sign.BOLT_MISSING}, {ObservedPlace.MASTER_JOINT})]))
    if told:
        parts = several(one.part for one in told)
        yield finding("master-joint-loose", Severity.ACT, observations(told), amounts={"parts": parts}, seen_there=told)


def pin_walk(so_far: SoFar) -> Iterator[Finding]:
    """A pin creeping out of its link: the press fit is gone, and in time the pin leaves altogether.

    Common practice, no source: it shows on both ends of the joint, and pressing it back does not mend the bore.
    """
    told = seen(so_far, {Sign.PIN_WALK})
    if told:
        far = any(one.grade in (Grade.MARKED, Grade.SEVERE) for one in told)
        severity = Severity.ACT if far else Severity.WATCH
        parts = several(one.part for one in told)
        yield finding("pin-walk", severity, observations(told), amounts={"parts": parts}, seen_there=told)


def _was_seen(so_far: SoFar) -> bool:
    return bool(seen(so_far, {Sign.LINK_TAKEN_OUT}))


def _off_chart(so_far: SoFar, direction: int) -> bool:
    links, charted = so_far.inspection.machine.links, _charted(so_far)
    counted = [count for count in (links.left, links.right) if count is not None]
    if charted is None or len(set(counted)) != 1 or _was_seen(so_far):
        return False
    return (counted[0] - charted) * direction > 0


def _charted(so_far: SoFar) -> int | None:
    geometry = so_far.chart.geometry if so_far.chart else None
    return geometry.links if geometry else None


def _counts(so_far: SoFar) -> tuple[Saying, ...]:
    links, charted = so_far.inspection.machine.links, _charted(so_far)
    sayings = []
    if links.left is not None and links.right is not None:
        sayings.append(Saying("links-counted", COUNTS, {"left": links.left, "right": links.right}))
    else:
        for subject in COUNTS:
            count = links[subject.side] if subject.side else None
            if count is not None:
                amounts: dict[str, Amount] = {"chain": Subject(Topic.CHAIN, subject.side), "count": count}
                sayings.append(Saying("links-counted-one-side", (subject,), amounts))
    if charted is not None:
        sayings.append(Saying("links-in-chart", (Subject(Topic.CHART),), {"count": charted}))
    return tuple(sayings)
