"""What each component weighs in the overall figure: its part of the undercarriage's replacement cost."""

from collections.abc import Mapping

from tracksworn.assessment.assumed import TYPICAL_SHARES
from tracksworn.assessment.model import SharesFrom
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.vocabulary import TRAVELS, Component, Layout


def shares(chart: WearChart | None, layout: Layout) -> tuple[SharesFrom, Mapping[Component, float]]:
    """Relative shares, both sides together: the chart's where any is above nought, else those typical of the layout.

    A component that is not in the mapping has a share of nought.
    """
    if chart is not None:
        own = {
            component: entry.share or 0.0 for component, entry in chart.components.items() if component not in TRAVELS
        }
        if any(share > 0.0 for share in own.values()):
            return SharesFrom.CHART, own
    return SharesFrom.TYPICAL, TYPICAL_SHARES[layout]
