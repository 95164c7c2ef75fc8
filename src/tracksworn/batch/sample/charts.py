"""Wear charts of the invented machines, as sizes to reckon with and as files."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from tracksworn.batch.sample.kinds import MachineKind
from tracksworn.batch.sample.lengths import INCH, length, rounded
from tracksworn.inspection.vocabulary import Component, Layout, LimitMeans, Unit

C = Component
INVENTED: Final = "invented for trying out"
CASE_ENDS: Final = 60.0
CASE_TIMES: Final = 3.0
"""An excavator's links are hardened so far, and wear so much faster below."""
SPAN: Final = 4
"""Links over which pitch is measured."""

_MEASURE: Final = {
    C.LINK: "rail height, shoe face to rail top, at the lowest place between joints",
    C.BUSHING: "outside diameter, across the worn place",
    C.PITCH: "pin end to the same edge of the fifth pin, slack drawn out, clear of the master joint",
    C.SHOE: "grouser height, plate to tip, a third in from the outer end",
    C.LUG: "lug height, carcass to tread, at mid-width",
    C.DRIVE_LUG: "width along the track at its root",
    C.SPROCKET: "tooth thickness at its base",
    C.FRONT_IDLER: "tread diameter",
    C.REAR_IDLER: "tread diameter",
    C.BOTTOM_ROLLER: "tread diameter",
    C.TOP_ROLLER: "tread diameter",
}
_MEANS: Final = dict.fromkeys((C.LINK, C.SHOE, C.FRONT_IDLER, C.REAR_IDLER, C.BOTTOM_ROLLER), LimitMeans.REBUILD)
_OVAL: Final = {"link": 25, "bushing": 16, "shoe": 15, "sprocket": 8, "front idler": 9, "bottom roller": 22}
_SHARES: Final = {
    Layout.ELEVATED_SPROCKET: {
        "link": 24,
        "bushing": 16,
        "shoe": 14,
        "sprocket": 8,
        "front idler": 6,
        "rear idler": 6,
        "bottom roller": 22,
        "top roller": 4,
    },
    Layout.OVAL: _OVAL | {"top roller": 5},
    Layout.TRACK_LOADER: _OVAL | {"top roller": 5},
    Layout.EXCAVATOR: {
        "link": 27,
        "bushing": 13,
        "shoe": 18,
        "sprocket": 8,
        "front idler": 10,
        "bottom roller": 20,
        "top roller": 4,
    },
    Layout.RUBBER: {"lug": 40, "drive lug": 10, "sprocket": 8, "front idler": 12, "bottom roller": 26, "top roller": 4},
}


@dataclass(frozen=True, slots=True)
class Wears:
    """New size and limit of a component, in mm."""

    new: float
    limit: float

    def at(self, percent: float) -> float:
        """The size, in mm, at a percent worn."""
        return self.new - (self.new - self.limit) * percent / 100.0


@dataclass(frozen=True, slots=True)
class Travels:
    """Where the adjuster's rod begins and ends, the cushion's gap likewise, and the range of sag; in mm."""

    adjuster: tuple[float, float] | None
    cushion: tuple[float, float] | None
    sag: tuple[float, float]


def has_case(kind: MachineKind) -> bool:
    """Whether its links wear faster below a hardened case."""
    return kind.layout is Layout.EXCAVATOR


def places(kind: MachineKind, component: Component) -> tuple[str, ...]:
    """The places of one part that its chart names, the one that wears most first."""
    if kind.layout is not Layout.ELEVATED_SPROCKET:
        return ()
    if component is C.BUSHING:
        return ("forward side", "reverse side")
    return ("inner tread", "outer tread") if component in (C.FRONT_IDLER, C.REAR_IDLER) else ()


@cache
def wearing(kind: MachineKind) -> Mapping[Component, Wears]:
    """Sizes of all that wears, as the chart prints them."""
    step = INCH / 32 if kind.unit is Unit.INCH else 0.5
    found = {}
    for component, one in kind.build.proportions.items():
        new, loss = rounded(one.new * kind.pitch, step), rounded(one.loss * kind.pitch, step)
        found[component] = Wears(new, new - loss)
    return found


@cache
def travelling(kind: MachineKind) -> Travels:
    """Travel and range; the adjuster reaches its end a little before pitch reaches its limit."""
    step, low, high = INCH / 8 if kind.unit is Unit.INCH else 5.0, *kind.build.sag
    sag = (rounded(low * kind.pitch, step), rounded(high * kind.pitch, step))
    if kind.layout is Layout.RUBBER:
        return Travels(None, None, sag)
    pitch, start = wearing(kind)[C.PITCH], rounded(kind.build.adjuster_start * kind.pitch, step)
    growth = (pitch.limit - pitch.new) / SPAN * kind.links / 2.0
    cushion = (14.0, 4.0) if kind.layout is Layout.ELEVATED_SPROCKET else None
    return Travels((start, rounded(start + 0.95 * growth, step)), cushion, sag)


def chart_file(kind: MachineKind) -> str:
    """The chart as a file."""
    stands_in = f"stands in for: {kind.name}\n" if kind.chart_of else ""
    entries = "".join(_entry(kind, component) for component in wearing(kind))
    return (
        f"tracksworn: wear chart 1\n"
        f"title: {kind.maker} {kind.chart_of or kind.model}, {_size(kind, kind.pitch)} pitch, {kind.track}\n"
        f"source: {INVENTED}, edition of 2030\n{stands_in}layout: {kind.layout}\n"
        f"{_geometry(kind)}components:\n{entries}{_travels(kind)}"
    )


def _size(kind: MachineKind, size: float) -> str:
    return length(size, INCH / 32 if kind.unit is Unit.INCH else 0.5, kind.unit).replace(".0 mm", " mm")


def _entry(kind: MachineKind, component: Component) -> str:
    sizes, measure = wearing(kind)[component], _MEASURE[component]
    if component is C.FRONT_IDLER and sizes.limit > sizes.new:
        measure = "tread to top of the centre flange, which grows as the treads wear"
    means = LimitMeans.TURN if component is C.BUSHING and kind.turns else _MEANS.get(component, LimitMeans.REPLACE)
    lines = [
        f"measure: {measure}",
        *([f"over: {SPAN} links"] if component is C.PITCH else []),
        *([f"places: [{', '.join(places(kind, component))}]"] if places(kind, component) else []),
        f"new: {_size(kind, sizes.new)}",
        f"limit: {_size(kind, sizes.limit)}",
        f"limit means: {means}",
        *_extra(kind, component, sizes),
        f"share: {_SHARES[kind.layout].get(component, 0)}",
    ]
    return f"  {component}:\n" + "".join(f"    {line}\n" for line in lines)


def _extra(kind: MachineKind, component: Component, sizes: Wears) -> list[str]:
    loss = abs(sizes.new - sizes.limit)
    if component in (C.LINK, C.LUG):
        spread = f"spread: {0.025 * loss:.2f} mm"
        case = [f"case: {{ends at: {CASE_ENDS:.0f} %, then times: {CASE_TIMES:.0f}}}"] if has_case(kind) else []
        return [f"tolerance: {0.02 * loss:.2f} mm", spread, *case]
    if component is C.BUSHING and kind.turns:
        return [f"turns: {kind.turns}"]
    return ["end play: 1.5 mm"] if component is C.BOTTOM_ROLLER else []


def _travels(kind: MachineKind) -> str:
    travels = travelling(kind)
    lines = []
    if travels.adjuster:
        start, end = (_size(kind, size) for size in travels.adjuster)
        lines.append(f"  adjuster: {{measure: rod showing, start: {start}, end: {end}}}\n")
    if travels.cushion:
        start, end = (_size(kind, size) for size in travels.cushion)
        lines.append(f"  cushion: {{measure: gap at the stop of the bogie, start: {start}, end: {end}}}\n")
    low, high = (_size(kind, size).removesuffix(f" {kind.unit}") for size in travels.sag)
    how = "track raised, at the middle roller" if _is_raised(kind) else "straightedge over the top, at the lowest point"
    lines.append(f'  sag: {{measure: "{how}", range: {low} to {high} {kind.unit}}}\n')
    return "".join(lines)


def _is_raised(kind: MachineKind) -> bool:
    return kind.layout in (Layout.EXCAVATOR, Layout.RUBBER)


def _geometry(kind: MachineKind) -> str:
    """The frame of the layout, longer where the chain has more links."""
    build, pitch, wears = kind.build, kind.pitch, wearing(kind)
    longer = (kind.links - build.links) / 2.0
    sizes = {
        "idler centres": None if build.centres is None else (build.centres + longer) * pitch,
        "sprocket back": (build.back + longer) * pitch,
        "sprocket height": build.height * pitch,
        "front idler": build.idler * pitch,
        "rear idler": build.idler * pitch if build.centres is not None else None,
        "sprocket": build.sprocket * pitch,
        "bottom roller": wears[C.BOTTOM_ROLLER].new,
        "top roller": wears[C.TOP_ROLLER].new,
        "pitch": pitch,
    }
    lines = [f"  {name}: {_size(kind, size)}\n" for name, size in sizes.items() if size is not None]
    return f"geometry:\n{''.join(lines)}  teeth: {build.teeth}\n  links: {kind.links}\n"
