"""Parts and machines that the chart was not made for."""

from collections.abc import Iterator

from tracksworn.assessment.findings.foreign import foreign_parts, is_foreign, of_origin
from tracksworn.assessment.findings.telling import (
    finding,
    gravest,
    observations,
    part_of,
    readings,
    seen,
    several,
    severity_by_grade,
)
from tracksworn.assessment.findings.troubles import is_near_limit
from tracksworn.assessment.sayings import Finding, Saying, Severity, Subject, Topic
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Origin, Sign


def stands_in(so_far: SoFar) -> Iterator[Finding]:
    """A chart that was not made for this machine: every percent is read against another machine's sizes.

    Common practice, no source: groups of one pitch and make often share sizes, but their limits may differ.
    """
    if so_far.chart is not None and so_far.chart.stands_in_for is not None:
        about = (Subject(Topic.CHART),)
        amounts = {"chart": so_far.chart.title, "machine": so_far.chart.stands_in_for}
        yield finding("chart-stands-in", Severity.NOTE, [Saying("chart-made-for-another", about, amounts)])


def another_make(so_far: SoFar) -> Iterator[Finding]:
    """Parts of another make on a chart that was not made for them: their new sizes and limits may be others.

    Common practice, no source: makers of parts choose rail heights and wall thicknesses of their own.
    """
    parts = of_origin(so_far, Origin.ANOTHER_MAKE)
    if parts and so_far.chart is not None:
        because = [Saying("of-another-make", parts, {"parts": several(parts)})]
        yield finding("another-make", Severity.NOTE, because, amounts={"parts": several(parts)})


def adapted_part(so_far: SoFar) -> Iterator[Finding]:
    """A part adapted from another place, or seen to be the wrong one.

    Common practice, no source: it may fit and still carry its load off the middle, stand lower than its neighbours, or
    have other seals and limits. Where the chart calls it near its limit, that is told here: its sizes are of another
    part, so nothing is to be ordered on its strength.
    """
    fitted = of_origin(so_far, Origin.ADAPTED)
    told = seen(so_far, {Sign.WRONG_PART})
    if fitted or told:
        because = [Saying("adapted", fitted, {"parts": several(fitted)})] if fitted else []
        near = [row for row in so_far.components if is_near_limit(row) and is_foreign(so_far, part_of(row))]
        yield finding(
            "adapted-part",
            gravest([severity_by_grade(told), Severity.WATCH if near else Severity.NOTE]),
            (*because, *observations(told), *readings(near)),
            amounts={"parts": several(foreign_parts(so_far))},
            seen_there=told,
        )
