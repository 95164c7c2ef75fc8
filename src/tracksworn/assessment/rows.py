"""Every part that wears, one row each: what it read, what was judged by eye, or why it was not seen."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache, partial

from tracksworn.assessment.assumed import TYPICAL_SHARES
from tracksworn.assessment.boundaries import first_highest
from tracksworn.assessment.bushing import life_used, turning_of
from tracksworn.assessment.estimates import estimate
from tracksworn.assessment.figures import figure, pools, take
from tracksworn.assessment.model import Basis, PlaceEstimate, PlaceFigure, Row, Turning
from tracksworn.assessment.samples import Sample, place_order, samples
from tracksworn.assessment.scale import Scale, scale_for
from tracksworn.assessment.sources import Circumstances
from tracksworn.assessment.stages import stage
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.values import ByEye, NotSeen
from tracksworn.inspection.vocabulary import TRAVELS, Component, Side

Figure = PlaceFigure | PlaceEstimate


def components_in_order(inspection: Inspection, chart: WearChart | None) -> tuple[Component, ...]:
    """What has rows: all that wears in the chart, else in the layout's typical shares, then any other that was read."""
    known = chart.components if chart is not None else TYPICAL_SHARES[inspection.machine.layout]
    others = (component for component in inspection.readings if component not in known)
    return tuple(component for component in (*known, *others) if component not in TRAVELS)


def rows_of(about: Circumstances, chart: WearChart | None, where: Sequence[int | None], share: float) -> Iterator[Row]:
    """The rows of a component by side and position, left before right, front before rear, each with its share."""
    reading = about.inspection.readings.get(about.component)
    entry = chart.components.get(about.component) if chart else None
    said = samples(reading, where, place_order(reading, entry))

    @cache
    def scale_of(gauge: str | None, at_end: bool) -> Scale | None:
        return scale_for(entry, gauge, at_end, about.inspection.machine.impact)

    def scale(gauge: str | None, position: int | None) -> Scale | None:
        return scale_of(gauge, position in (1, where[-1]))

    by_part = _by_part(said, _figures(about, said, scale))
    for side in Side:
        turning = turning_of(about.inspection, chart, about.component, side)
        for position in where:
            here, known = by_part.get((side, position), ([], []))
            governing = _governing(known)
            gauge = _gauge(governing, here)
            row = partial(
                Row,
                about.component,
                side,
                position,
                places=tuple([figure for figure in known if isinstance(figure, PlaceFigure)]),
                estimates=tuple([figure for figure in known if isinstance(figure, PlaceEstimate)]),
                place_order=tuple([figure.place for figure in known]),
                gauge=gauge,
                scale=scale(gauge, position),
                share=share,
                turning=turning,
            )
            match governing:
                case PlaceFigure():
                    yield _measured(row, governing, turning)
                case PlaceEstimate():
                    yield _by_eye(row, governing, turning)
                case None:
                    yield row(Basis.NOT_SEEN, reason=_reason(here))


def _figures(
    about: Circumstances, said: Sequence[Sample], scale: Callable[[str | None, int | None], Scale | None]
) -> tuple[Figure | None, ...]:
    """The figure of each sample, None where it was not seen; `scale` by gauge and position."""
    taken = [take(sample, scale(sample.gauge, sample.position)) for sample in said]
    pooled = pools(about, [each for each in taken if each is not None])
    return tuple(
        estimate(sample.place, sample.value, about.assumptions)
        if isinstance(sample.value, ByEye)
        else figure(about, each, pooled.get(sample.place))
        if each is not None
        else None
        for sample, each in zip(said, taken, strict=True)
    )


def _by_part(
    said: Sequence[Sample], figures: Sequence[Figure | None]
) -> Mapping[tuple[Side, int | None], tuple[list[Sample], list[Figure]]]:
    """The samples of each part and the figures that they give."""
    found: dict[tuple[Side, int | None], tuple[list[Sample], list[Figure]]] = {}
    for sample, one in zip(said, figures, strict=True):
        samples_of, figures_of = found.setdefault((sample.side, sample.position), ([], []))
        samples_of.append(sample)
        if one is not None:
            figures_of.append(one)
    return found


def _gauge(governing: Figure | None, said: Sequence[Sample]) -> str | None:
    """The gauge that the governing place was measured with."""
    if not isinstance(governing, PlaceFigure):
        return None
    return next(sample.gauge for sample in said if sample.place is governing.place)


def _reason(said: Sequence[Sample]) -> str | None:
    """Why a part was not seen."""
    return next((sample.value.reason for sample in said if isinstance(sample.value, NotSeen)), None)


def _governing(figures: Sequence[Figure]) -> Figure | None:
    """The most worn place; else the first that is known to be at most so much, else the first with a size."""
    counted = [(each, value) for each in figures if (value := _counted(each)) is not None]
    if most_worn := first_highest(counted, lambda pair: pair[1]):
        return most_worn[0]
    at_most = (each for each in figures if isinstance(each, PlaceEstimate))
    return next(at_most, None) or next(iter(figures), None)


def _counted(figure: Figure) -> float | None:
    return figure.percent_worn if isinstance(figure, PlaceFigure) else figure.counted


def _measured(row: Callable[..., Row], governing: PlaceFigure, turning: Turning | None) -> Row:
    """A part with what is known of it by the place that governs."""
    seen = partial(
        row,
        Basis.MEASURED,
        place=governing.place,
        readings=len(governing.singles),
        size_mm=governing.size_mm,
    )
    worn, uncertainty = governing.percent_worn, governing.uncertainty
    if worn is None or uncertainty is None:
        return seen()
    return seen(
        percent_worn=worn,
        low=worn - uncertainty,
        high=worn + uncertainty,
        uncertainty=uncertainty,
        dof=governing.dof,
        stage=stage(worn),
        life_used=life_used(turning, worn) if turning else None,
        worst_joint=governing.worst_joint,
        assumed=governing.assumed,
        budget=governing.budget,
    )


def _by_eye(row: Callable[..., Row], governing: PlaceEstimate, turning: Turning | None) -> Row:
    """The same of one that was judged by eye."""
    worn = governing.percent_worn
    return row(
        Basis.BY_EYE,
        place=governing.place,
        percent_worn=worn,
        low=governing.low,
        high=governing.high,
        stage=None if worn is None else stage(worn),
        life_used=None if worn is None or turning is None else life_used(turning, worn),
        estimate=governing.said,
    )
