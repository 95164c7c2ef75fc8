"""What the cross-checks share: observations by their signs, readings as reasons, and the making of a finding."""

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from tracksworn.assessment.assumed import Threshold
from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.model import Row
from tracksworn.assessment.sayings import (
    Amount,
    Finding,
    HoursLeft,
    Length,
    Percent,
    Saying,
    Several,
    Severity,
    Subject,
    Topic,
)
from tracksworn.assessment.so_far import SoFar, once
from tracksworn.inspection.model import Observation
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS, Component, Grade, ObservedPlace, PartPlace, Side, Sign

Part = Component | ObservedPlace

ROWS_TOLD_SINGLY = 3
"""How many rows of one side are told one by one; more are told together."""


@dataclass(frozen=True, slots=True)
class Seen:
    """An observation, its index in the inspection, and the part that it speaks of."""

    index: int
    observation: Observation
    part: Subject

    @property
    def grade(self) -> Grade | None:
        """How much of it; None where nobody said."""
        return self.observation.grade

    @property
    def side(self) -> Side | None:
        """The side, where it was said."""
        return self.part.side


@once
def observed(so_far: SoFar) -> tuple[Seen, ...]:
    """All that was seen, without what was looked for and not found."""
    return tuple(
        Seen(index, observation, subject_of(so_far, observation))
        for index, observation in enumerate(so_far.inspection.observations)
        if observation.grade is not Grade.NONE
    )


def seen(so_far: SoFar, signs: Collection[Sign], at: Collection[Part] | None = None) -> tuple[Seen, ...]:
    """What was seen of these signs, at these parts or anywhere."""
    return tuple(
        one
        for one in observed(so_far)
        if not set(signs).isdisjoint(one.observation.seen) and (at is None or one.part.what in at)
    )


def subject_of(so_far: SoFar, observation: Observation) -> Subject:
    """The part that an observation speaks of; a roller alone on its side is number 1 without being called so."""
    spot = observation.at
    number = spot.number
    if number is None and spot.side is not None and isinstance(spot.part, Component) and spot.part in ROLLERS:
        number = 1 if len(so_far.rows(spot.part, spot.side)) == 1 else None
    return Subject(spot.part or Topic.MACHINE, spot.side, number, spot.place)


def on(side: Side, all_seen: Iterable[Seen]) -> tuple[Seen, ...]:
    """What was seen on that side, or without saying on which."""
    return tuple(one for one in all_seen if one.side in (None, side))


def severity_by_grade(all_seen: Iterable[Seen], severe: Severity = Severity.WATCH) -> Severity:
    """`watch` where anything is marked, `severe` where anything is severe, else `note`."""
    grades = {one.grade for one in all_seen}
    if Grade.SEVERE in grades:
        return severe
    return Severity.WATCH if Grade.MARKED in grades else Severity.NOTE


def gravest(severities: Iterable[Severity]) -> Severity:
    """The one that asks for something soonest."""
    return min(severities, key=list(Severity).index)


def finding(
    code: str,
    severity: Severity,
    because: Iterable[Saying],
    *,
    about: Iterable[Subject] = (),
    advice: str | Saying | None = None,
    amounts: Mapping[str, Amount] | None = None,
    seen_there: Iterable[Seen] = (),
    decided_by: Iterable[Threshold] = (),
) -> Finding:
    """A finding about `about`, or about all that its reasons speak of; its advice is the code's own unless named."""
    because = tuple(because)
    subjects = tuple(dict.fromkeys([*about, *(subject for saying in because for subject in saying.about)]))
    said = advice if isinstance(advice, Saying) else Saying(advice or code)
    indices = tuple(sorted({one.index for one in seen_there}))
    return Finding(code, severity, subjects, because, said, amounts or {}, indices, tuple(decided_by))


def signs_of(all_seen: Iterable[Seen], among: Collection[Sign]) -> Several:
    """Which of these signs were seen, in the order of the trade's words, for a title."""
    found = {sign for one in all_seen for sign in one.observation.seen}
    return Several(tuple(sign for sign in Sign if sign in found and sign in among))


def part_of(row: Row | ForecastRow) -> Subject:
    """The part that a row speaks of, without the place that governs it."""
    return Subject(row.component, row.side, row.position)


def percents_by_place(row: Row) -> dict[PartPlace | None, float | None]:
    """The middle figure at each place of a row, measured or by eye."""
    measured = {figure.place: figure.percent_worn for figure in row.places}
    return {figure.place: figure.percent_worn for figure in row.estimates} | measured


def has_figure(row: Row) -> bool:
    """Whether a part has a percent worn that counts; nought is one."""
    return row.counted is not None


def half_width(one: Row, other: Row) -> float:
    """By how much two figures may stand apart or together by their doubt alone, points; 0 for an end that is open."""
    widths = ((row.high - row.low) / 2.0 for row in (one, other) if row.low is not None and row.high is not None)
    return math.hypot(*widths)


def several(subjects: Iterable[Subject]) -> Several:
    """A list of parts for a title."""
    return Several(tuple(dict.fromkeys(subjects)))


# --- reasons --------------------------------------------------------------------------------------------------------


def worn(row: Row) -> Percent:
    """The percent worn of a row with its interval, or as said."""
    return Percent(row.percent_worn, row.low, row.high, row.estimate)


def reading(row: Row) -> Saying:
    """The governing figure of a row as a reason: its size and limit, or the estimate as said."""
    part = Subject(row.component, row.side, row.position, row.place)
    scale = row.scale
    if scale is None or row.size_mm is None:
        return Saying("judged", (part,), {"part": part, "worn": worn(row)})
    amounts: dict[str, Amount] = {
        "part": part,
        "size": Length(row.size_mm),
        "limit": Length(scale.limit),
        "worn": worn(row),
    }
    if row.component in CHAINS and row.readings > 1:
        return Saying("measured-mean", (part,), amounts | {"readings": row.readings})
    return Saying("measured", (part,), amounts)


def readings(rows: Iterable[Row]) -> tuple[Saying, ...]:
    """The figures of several rows: one by one, or together where a side has many."""
    rows = tuple(rows)
    sayings: list[Saying] = []
    for side in Side:
        there = [row for row in rows if row.side is side]
        if len(there) <= ROWS_TOLD_SINGLY:
            sayings += [reading(row) for row in there]
        else:
            sayings.append(together(there))
    return tuple(sayings)


def together(rows: Iterable[Row]) -> Saying:
    """Several rows in one reason, from the least to the most worn."""
    rows = tuple(rows)
    parts = tuple(part_of(row) for row in rows)
    ranked = sorted(rows, key=lambda row: row.counted or 0.0)
    amounts: dict[str, Amount] = {"parts": Several(parts)}
    if len({row.estimate for row in rows}) == 1 and rows[0].estimate is not None:
        return Saying("judged-together", parts, amounts | {"worn": worn(rows[0])})
    least, most = (Percent(row.counted) for row in (ranked[0], ranked[-1]))
    return Saying("worn-together", parts, amounts | {"least": least, "most": most})


def hours_left(row: ForecastRow) -> Saying:
    """The hours that a part has left."""
    part = part_of(row)
    return Saying("hours-left", (part,), {"part": part, "hours": HoursLeft(row.hours_low, row.hours_high)})


def observation(one: Seen) -> Saying:
    """An observation as a reason: part, signs, grade and size, as far as they were given.

    What has no word of its own stands in a note, so its reason names the observation, counted from 1.
    """
    signs = tuple(sign for sign in one.observation.seen if sign is not Sign.OTHER)
    if not signs:
        return Saying("seen-in-note", (one.part,), {"part": one.part, "number": one.index + 1})
    amounts: dict[str, Amount] = {"part": one.part, "signs": Several(signs)}
    code = "seen"
    if one.grade is not None:
        amounts["grade"] = one.grade
        code += "-graded"
    if one.observation.size is not None:
        amounts["size"] = Length(one.observation.size)
        code += "-sized"
    return Saying(code, (one.part,), amounts)


def observations(all_seen: Iterable[Seen]) -> tuple[Saying, ...]:
    """Observations as reasons, the gravest first."""
    order = [Grade.SEVERE, Grade.MARKED, None, Grade.SLIGHT]
    return tuple(observation(one) for one in sorted(all_seen, key=lambda one: order.index(one.grade)))
