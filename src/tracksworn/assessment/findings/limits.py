"""Limits: what is past them, what comes near, and figures that cannot be."""

from collections.abc import Iterator

from tracksworn.assessment.boundaries import exceeds
from tracksworn.assessment.findings.foreign import is_foreign, without_foreign
from tracksworn.assessment.findings.rubber import corded_sides
from tracksworn.assessment.findings.telling import finding, part_of, reading, readings, several
from tracksworn.assessment.findings.troubles import Ailing, Trouble, ailing, is_near_limit, reasons, told_as
from tracksworn.assessment.model import Basis, PlaceFigure, Row, Single
from tracksworn.assessment.sayings import Amount, Finding, Length, Percent, Saying, Severity, Subject
from tracksworn.assessment.so_far import SoFar
from tracksworn.assessment.uncertainty import Budget, Contribution, Kind, Source
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS, Component, LimitMeans, ShoeKind, Track


def destroyed(so_far: SoFar) -> Iterator[Finding]:
    """A size past the one at which the chart says that the part may fail in use.

    The limit is the end of the economic repair; `destroyed` is a matter of strength, and only some charts have it.
    """
    for parts in told_as(so_far, Trouble.DESTROYED):
        yield _past("past-destroyed", so_far, parts, "past-destroyed")


def past_limit_and_leaking(so_far: SoFar) -> Iterator[Finding]:
    """A wheel past its limit that also loses oil: it fails by its bearing before it fails by its tread.

    Common practice, no source: neither a worn-out roller nor a dry one is worth a new seal alone.
    """
    for parts in told_as(so_far, Trouble.PAST_LIMIT):
        leaking = tuple(part for part in parts if Trouble.LEAK in part.troubles)
        if leaking:
            yield _past("past-limit-and-leaking", so_far, leaking, "past-limit-and-leaking")


def past_limit(so_far: SoFar) -> Iterator[Finding]:
    """Percent worn of 100 or more: what the chart says its limit means can no longer be done.

    Common practice, no source: the limit ends the economic repair, not the strength of the part. What may be short of
    the limit within its uncertainty is told apart: nobody should be told to scrap a chain on a tenth of a millimetre.
    """
    for parts in told_as(so_far, Trouble.PAST_LIMIT):
        worn_out = tuple(part for part in parts if Trouble.LEAK not in part.troubles)
        beyond = tuple(part for part in worn_out if not _may_be_short(part))
        if beyond:
            yield _past("past-limit", so_far, beyond, _lost(so_far, beyond))
        in_doubt = tuple(part for part in worn_out if _may_be_short(part))
        if in_doubt:
            yield _past("past-limit", so_far, in_doubt, "past-limit-in-doubt")


def near_limit(so_far: SoFar) -> Iterator[Finding]:
    """From 80 percent worn a part comes near its limit: the time to price the work and to measure more often.

    Where others of the same rollers are past it already, those near it are told beside them instead; bushings that can
    be turned and grousers have checks of their own.
    """
    ails = {part.part for part in ailing(so_far)}
    past = {part.what for part in _told_past(so_far)}
    for component in dict.fromkeys(row.component for row in so_far.components):
        if component in ROLLERS and component in past:
            continue
        near = rows_near_limit(so_far, component)
        rows = [row for row in near if part_of(row) not in ails and not _has_own_check(so_far, row)]
        if rows:
            yield _near("near-limit", rows)


def grouser_low(so_far: SoFar) -> Iterator[Finding]:
    """Shoes near their limit: a low grouser slips before it bends.

    Common practice, no source: low grousers spin on firm ground, which wears everything else, and the shoe beneath
    grows thin; new bars can be welded on only while there is something to weld to.
    """
    rows = [row for row in rows_near_limit(so_far, Component.SHOE) if has_grouser(so_far)]
    if rows:
        yield _near("grouser-low", rows)


def joint_past_limit(so_far: SoFar) -> Iterator[Finding]:
    """One joint of a chain past the limit by more than it can be misread, while the mean of the chain is not.

    The mean decides what happens to the chain; a single worn-out link or bushing stays lost in it.
    """
    for row in so_far.components:
        figure, single = _worst_joint(so_far, row)
        if figure is None or single is None:
            continue
        part = Subject(row.component, row.side, single.joint, figure.place)
        amounts: dict[str, Amount] = {"part": part, "size": Length(single.size), "worn": Percent(single.percent_worn)}
        code = "joint-past" if single.joint is None else "numbered-joint-past"
        because = [Saying(code, (part,), amounts), reading(row)]
        if row.worst_joint is not None and row.place is figure.place:
            further = {"worn": Percent(row.worst_joint.further_high)}
            because.append(Saying("further-joint", (part_of(row),), further))
        yield finding("joint-past-limit", Severity.ACT, because, amounts={"parts": part_of(row)})


def better_than_new(so_far: SoFar) -> Iterator[Finding]:
    """A reading better than new by more than its uncertainty: a wrong chart, a wrong reading or another make's part.

    Metal does not grow back, so the figure is never silently taken as zero.
    """
    for component in dict.fromkeys(row.component for row in so_far.components):
        rows = [row for row in so_far.rows(component) if _is_better_than_new(row)]
        if rows:
            parts = several(map(part_of, rows))
            yield finding("better-than-new", Severity.NOTE, readings(rows), amounts={"parts": parts})


def rows_near_limit(so_far: SoFar, component: Component) -> tuple[Row, ...]:
    """The rows of a component that stand at 80 and under 100, `at least` as its low end."""
    return tuple(row for row in so_far.rows(component) if is_near_limit(row))


def is_turnable(so_far: SoFar, row: Row) -> bool:
    """Whether the chart's limit means a turn, one is known to be left, and the bushing does not turn by itself."""
    entry = so_far.entry(row.component)
    rotating = so_far.inspection.machine.track is Track.ROTATING_BUSHING
    left = row.turning is not None and row.turning.made < row.turning.allowed
    return left and not rotating and entry is not None and entry.limit_means is LimitMeans.TURN


def has_grouser(so_far: SoFar) -> bool:
    """Whether the shoes have grousers, as far as is known."""
    return so_far.inspection.machine.shoe.kind not in (ShoeKind.PAD, ShoeKind.SWAMP)


def _past(code: str, so_far: SoFar, parts: tuple[Ailing, ...], advice: str) -> Finding:
    because = [*reasons(parts), *_fails_at(code, parts)]
    there = [one for part in parts for one in part.seen]
    near = tuple(map(part_of, _others_near(so_far, parts)))
    if near:
        because.append(Saying("near-limit-too", near, {"parts": several(near)}))
    subjects = [part.part for part in parts]
    amounts = {"parts": several(subjects)}
    return finding(code, Severity.ACT, because, about=subjects, advice=advice, amounts=amounts, seen_there=there)


def _fails_at(code: str, parts: tuple[Ailing, ...]) -> Iterator[Saying]:
    """The size at which the chart says that such a part may fail in use."""
    if code != "past-destroyed":
        return
    sizes = {part.row.scale.dimensions.destroyed for part in parts if part.row and part.row.scale}
    for size in sorted(size for size in sizes if size is not None):
        yield Saying("fails-at", tuple(part.part for part in parts), {"size": Length(size)})


def _told_past(so_far: SoFar) -> tuple[Subject, ...]:
    told = (Trouble.DESTROYED, Trouble.PAST_LIMIT)
    return tuple(part.part for part in ailing(so_far) if part.gravest in told)


def _others_near(so_far: SoFar, parts: tuple[Ailing, ...]) -> tuple[Row, ...]:
    """Rollers near their limit, told once: beside the first of their kind that is past it."""
    what = parts[0].part.what
    if not isinstance(what, Component) or what not in ROLLERS:
        return ()
    first = next(part for part in _told_past(so_far) if part.what is what)
    if first not in {part.part for part in parts}:
        return ()
    return without_foreign(so_far, rows_near_limit(so_far, what))


def _may_be_short(part: Ailing) -> bool:
    """Whether the interval of a part past its limit begins below it."""
    return part.row is not None and part.row.low is not None and exceeds(100.0, part.row.low)


def _lost(so_far: SoFar, parts: tuple[Ailing, ...]) -> str:
    what = parts[0].part.what
    entry = so_far.entry(what)
    meant = entry.limit_means if entry else None
    return f"past-limit-{meant}" if meant is not None else "past-limit"


def _has_own_check(so_far: SoFar, row: Row) -> bool:
    corded = row.component is Component.LUG and row.side in corded_sides(so_far)
    low = row.component is Component.SHOE and has_grouser(so_far)
    foreign = is_foreign(so_far, part_of(row))
    return corded or low or foreign or is_turnable(so_far, row) or _worst_joint(so_far, row)[1] is not None


def _near(code: str, rows: list[Row]) -> Finding:
    because = list(readings(rows))
    reaching = [
        row for row in rows if row.high is not None and exceeds(row.high, 100.0) and row.basis is Basis.MEASURED
    ]
    if reaching:
        parts = tuple(map(part_of, reaching))
        because.append(Saying("may-be-past", parts, {"parts": several(parts)}))
    return finding(code, Severity.WATCH, because, amounts={"parts": several(map(part_of, rows))})


def _is_better_than_new(row: Row) -> bool:
    return row.basis is Basis.MEASURED and row.high is not None and exceeds(0.0, row.high)


def _worst_joint(so_far: SoFar, row: Row) -> tuple[PlaceFigure | None, Single | None]:
    """The most worn joint of a chain that is not past its limit, where that joint is past it beyond doubt."""
    if row.component not in CHAINS or row.percent_worn is None or not exceeds(100.0, row.percent_worn):
        return None, None
    beyond = [
        (figure, single)
        for figure in row.places
        if figure.budget is not None and len(figure.singles) > 1
        for single in figure.singles
        if single.percent_worn is not None
        and exceeds(single.percent_worn, 100.0)  # most are not, and need no uncertainty
        and exceeds(single.percent_worn - _own_uncertainty(so_far, figure.budget), 100.0)
    ]
    return max(beyond, key=lambda pair: pair[1].percent_worn or 0.0, default=(None, None))


def _own_uncertainty(so_far: SoFar, budget: Budget) -> float:
    """Expanded uncertainty of one joint: that of the mean, with the seat of the gauge in the place of the spread."""
    kept = {source: part for source, part in budget.contributions.items() if source.kind is not Kind.SPREAD}
    seat = Source(Kind.SEAT, ("one joint",))
    return Budget({**kept, seat: Contribution(so_far.assumed.seat)}).expanded
