"""What matplotlib draws becomes our own paths and type, and nothing of the user's reaches it or is left behind."""

import os
import subprocess
import sys
from collections.abc import Callable
from math import nan
from pathlib import Path as File

import pytest
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon
from matplotlib.transforms import Affine2D, Bbox

from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Path, Stroke, Text
from tracksworn.documents.drawing.plotted import PER_MM, POINTS
from tracksworn.documents.drawing.plotting import Chart, plot

IN_MM = Affine2D().scale(PER_MM)
WITHIN = Bbox.from_extents(10 * PER_MM, 5 * PER_MM, 20 * PER_MM, 15 * PER_MM)
SRC = File(__file__).parents[3] / "src"
DRAW = """
from tracksworn.documents.drawing.plotting import Chart, plot
def compose(figure):
    figure.text(0.5, 0.5, "8 412")
(drawing,) = plot([Chart(30, 20, compose, "hours")])
print(drawing.texts[0].content, drawing.texts[0].size)
"""


def drawn(compose: Callable[[Figure], object]) -> Drawing:
    def composed(figure: Figure) -> None:
        compose(figure)

    (drawing,) = plot([Chart(30.0, 20.0, composed, "said")])
    return drawing


def line(*points: tuple[float, float], **style: object) -> Line2D:
    xs, ys = zip(*points, strict=True)
    made = Line2D(xs, ys, color="#1b2329", linewidth=0.3 * POINTS, transform=IN_MM)
    made.set(**style)
    return made


def shapes(drawing: Drawing) -> list[object]:
    return [shape for path in drawing.paths for shape in path.shapes]


def test_a_line_keeps_its_place_in_millimetres_from_the_top_its_width_and_its_dashes() -> None:
    dashes = (0, (0.9 * POINTS, 0.6 * POINTS))
    made = drawn(lambda figure: figure.add_artist(line((1, 2), (25, 12), linestyle=dashes)))
    assert made.marks == (Path((Line(((1, 18), (25, 8))),), stroke=Stroke(0.3, dash=(0.9, 0.6))),)
    assert (made.width, made.height, made.alternative) == (30, 20, "said")


def test_one_line_may_have_gaps() -> None:
    made = drawn(lambda figure: figure.add_artist(line((1, 2), (3, 2), (nan, nan), (5, 2), (7, 2))))
    assert shapes(made) == [Line(((1, 18), (3, 18))), Line(((5, 18), (7, 18)))]


def test_lines_of_one_pen_that_follow_one_another_are_one_path() -> None:
    def compose(figure: Figure) -> None:
        figure.add_artist(line((1, 1), (2, 2)))
        figure.add_artist(line((3, 3), (4, 4)))
        figure.add_artist(line((5, 5), (6, 6), color="#5c676e"))

    assert [len(path.shapes) for path in drawn(compose).paths] == [2, 1]


def test_what_lies_outside_the_frame_is_cut_away() -> None:
    def compose(figure: Figure) -> None:
        figure.add_artist(line((0, 10), (30, 10))).set_clip_box(WITHIN)
        area = Polygon([(0, 8), (15, 8), (15, 12), (0, 12)], facecolor="#e3e8ea", linewidth=0, transform=IN_MM)
        figure.add_artist(area).set_clip_box(WITHIN)

    made = drawn(compose)
    xs = sorted({x for shape in shapes(made) if isinstance(shape, Line) for x, _ in shape.points})
    assert xs[0] == pytest.approx(10, abs=0.02)
    assert xs[-1] == pytest.approx(20, abs=0.02)


def test_dots_are_whole_circles_and_those_that_overlap_leave_no_hole() -> None:
    def compose(figure: Figure) -> None:
        dots = Line2D([5, 15, 15.5], [5, 5, 5], linestyle="none", marker="o", transform=IN_MM)
        dots.set(markersize=1.2 * POINTS, markeredgewidth=0, color="#1b2329")
        figure.add_artist(dots)

    made = drawn(compose)
    assert [path.shapes for path in made.paths] == [
        (Circle((5, 15), 0.6), Circle((15, 15), 0.6)),
        (Circle((15.5, 15), 0.6),),
    ]
    assert {path.fill for path in made.paths} == {"#1b2329"}


@pytest.mark.parametrize(("ha", "anchor"), [("left", "start"), ("center", "middle"), ("right", "end")])
def test_type_is_ours_and_stands_where_it_was_put(ha: str, anchor: str) -> None:
    def compose(figure: Figure) -> None:
        figure.text(15, 10, "$8 412$", size=6.4, weight=600, ha=ha, va="baseline", color="#5c676e", transform=IN_MM)

    (text,) = drawn(compose).texts
    assert text == Text((15, 10), "$8 412$", 6.4, 600, "#5c676e", anchor)  # type: ignore[arg-type]


def test_no_chart_needs_no_matplotlib_and_neither_does_the_module() -> None:
    code = (
        "import sys; from tracksworn.documents.drawing.trend.draw import draw_trends; draw_trends([]); "
        "print('matplotlib' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], env=clean(), capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def clean(**more: str) -> dict[str, str]:
    """This environment without anything that speaks to matplotlib."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("MPL", "MATPLOTLIB", "XDG_"))}
    return {**kept, "PYTHONPATH": str(SRC), **more}


@pytest.mark.slow
def test_the_users_settings_do_not_matter_and_nothing_is_left_behind_nor_said(tmp_path: File) -> None:
    home, settings = tmp_path / "home", tmp_path / "matplotlibrc"
    home.write_text("no folder, so nothing can be written in it")
    settings.write_text("font.size: 31\nlines.linewidth: 9\ntext.usetex: True\n")
    command = [sys.executable, "-W", "error", "-c", DRAW]
    env = clean(HOME=str(home), MATPLOTLIBRC=str(settings), TMPDIR=str(tmp_path))
    done = subprocess.run(command, env=env, cwd=tmp_path, capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["8", "412", "10.0"]
    assert done.stderr == ""
    assert sorted(tmp_path.iterdir()) == [home, settings]
