"""Charts composed with matplotlib, as plain drawings: the strokes, fills and type of every other drawing.

Matplotlib takes longer to import than the page engine, so it is imported where the first chart is drawn. It is kept
from the user's own settings and from leaving anything behind: no folder, no cache of fonts, no warning where the home
cannot be written. None of its own type is drawn, so it need not look for fonts.
"""

import os
import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.scratch import scratch

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_LOCK: Final = threading.Lock()


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart yet to be drawn: `compose` adds artists to a figure that measures `width` × `height` mm."""

    width: float
    height: float
    compose: "Callable[[Figure], None]"
    alternative: str


def plot(charts: Sequence[Chart]) -> tuple[Drawing, ...]:
    """The charts as drawings: the same for the same charts, whatever the user's settings of matplotlib are."""
    if not charts:
        return ()
    with _LOCK, _kept_apart():
        import matplotlib  # noqa: PLC0415

        with matplotlib.rc_context():
            matplotlib.rcdefaults()
            matplotlib.rcParams["lines.scale_dashes"] = False
            matplotlib.rcParams["text.parse_math"] = False
            return tuple(map(_plot, charts))


def _plot(chart: Chart) -> Drawing:
    from matplotlib.figure import Figure  # noqa: PLC0415

    from tracksworn.documents.drawing.plotted import PER_MM, Renderer  # noqa: PLC0415

    figure = Figure((chart.width / 25.4, chart.height / 25.4), dpi=25.4 * PER_MM, frameon=False)
    chart.compose(figure)
    renderer = Renderer(chart.width, chart.height)
    figure.draw(renderer)
    return renderer.drawing(chart.alternative)


@contextmanager
def _kept_apart() -> Iterator[None]:
    """While matplotlib may be imported its settings and caches are in a folder that is gone afterwards."""
    with scratch() as folder:
        own = folder / "matplotlibrc"
        own.touch()
        with _environment({"MPLCONFIGDIR": str(folder), "MATPLOTLIBRC": str(own), "MPL_IGNORE_SYSTEM_FONTS": "1"}):
            yield


@contextmanager
def _environment(values: Mapping[str, str]) -> Iterator[None]:
    before = {name: os.environ.get(name) for name in values}
    os.environ.update(values)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value
