"""Kinds of machine that a sale has, all of them invented. Lengths are mm, lives machine hours."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from tracksworn.inspection.vocabulary import Component, Layout, ShoeKind, Suspension, Track, Unit

C = Component


@dataclass(frozen=True, slots=True)
class Proportion:
    """A new size and what wear takes of it up to the limit, in pitches; below nought where the size grows."""

    new: float
    loss: float


@dataclass(frozen=True, slots=True)
class Build:
    """What all machines of a layout have in common: proportions, and places in pitches for a chain of `links`."""

    proportions: Mapping[Component, Proportion]
    links: int
    back: float
    height: float
    idler: float
    sprocket: float
    teeth: int
    centres: float | None = None  # of two idlers
    adjuster_start: float = 0.1
    sag: tuple[float, float] = (0.27, 0.36)


@dataclass(frozen=True, slots=True)
class MachineKind:
    """A model of an invented maker. `life` is that of a chain, by which all other lives go."""

    maker: str
    model: str
    layout: Layout
    track: Track
    pitch: float
    links: int
    bottom_rollers: int
    top_rollers: int
    shoe_width: int
    life: float
    weight: float  # how often it stands in a sale
    prices: str
    unit: Unit = Unit.MILLIMETRE
    chart_of: str | None = None  # the model whose chart stands in
    charted: bool = True

    @property
    def name(self) -> str:
        """Maker and model."""
        return f"{self.maker} {self.model}"

    @property
    def stem(self) -> str:
        """What its chart's file is named by."""
        of = f"{self.chart_of} for {self.model}" if self.chart_of else self.model
        return f"{self.maker} {of}".lower().replace(" ", "-")

    @property
    def build(self) -> Build:
        """What its layout has."""
        return BUILDS[self.layout]

    @property
    def suspension(self) -> Suspension:
        """How its bottom rollers are carried."""
        return Suspension.SUSPENDED if self.layout is Layout.ELEVATED_SPROCKET else Suspension.RIGID

    @property
    def shoe_kind(self) -> ShoeKind | None:
        """Its shoes."""
        return {
            Layout.EXCAVATOR: ShoeKind.TRIPLE_GROUSER,
            Layout.TRACK_LOADER: ShoeKind.DOUBLE_GROUSER,
            Layout.RUBBER: None,
        }.get(self.layout, ShoeKind.SINGLE_GROUSER)

    @property
    def turns(self) -> int:
        """How often its bushings may be turned."""
        return 0 if self.track in (Track.ROTATING_BUSHING, Track.RUBBER) else 1

    @property
    def is_dozer(self) -> bool:
        """Whether it pushes."""
        return self.layout in (Layout.ELEVATED_SPROCKET, Layout.OVAL)


def _proportions(**of: tuple[float, float]) -> Mapping[Component, Proportion]:
    return {Component(name.replace("_", " ")): Proportion(*both) for name, both in of.items()}


BUILDS: Final[Mapping[Layout, Build]] = {
    Layout.ELEVATED_SPROCKET: Build(
        _proportions(
            link=(0.662, 0.070),
            bushing=(0.389, 0.035),
            pitch=(4.0, -0.056),
            shoe=(0.361, 0.213),
            sprocket=(0.231, 0.065),
            front_idler=(3.33, 0.139),
            rear_idler=(3.33, 0.139),
            bottom_roller=(1.185, 0.213),
            top_roller=(0.88, 0.111),
        ),
        links=45,
        centres=15.185,
        back=11.76,
        height=3.843,
        idler=3.33,
        sprocket=3.70,
        teeth=23,
    ),
    Layout.OVAL: Build(
        _proportions(
            link=(0.65, 0.067),
            bushing=(0.375, 0.033),
            pitch=(4.0, -0.083),
            shoe=(0.35, 0.20),
            sprocket=(0.267, 0.075),
            front_idler=(3.47, 0.15),
            bottom_roller=(1.10, 0.133),
            top_roller=(0.925, 0.10),
        ),
        links=40,
        back=13.53,
        height=0.20,
        idler=3.47,
        sprocket=4.025,
        teeth=25,
        sag=(0.17, 0.24),
    ),
    Layout.EXCAVATOR: Build(
        _proportions(
            link=(0.553, 0.042),
            bushing=(0.312, 0.0284),
            pitch=(4.0, -0.105),
            shoe=(0.147, 0.079),
            sprocket=(0.232, 0.058),
            front_idler=(0.105, -0.047),
            bottom_roller=(0.842, 0.0947),
            top_roller=(0.737, 0.084),
        ),
        links=49,
        back=18.95,
        height=0.05,
        idler=2.947,
        sprocket=3.395,
        teeth=21,
        sag=(1.57, 1.77),
    ),
    Layout.TRACK_LOADER: Build(
        _proportions(
            link=(0.59, 0.050),
            bushing=(0.345, 0.032),
            pitch=(4.0, -0.064),
            shoe=(0.21, 0.117),
            sprocket=(0.26, 0.070),
            front_idler=(3.63, 0.14),
            bottom_roller=(1.076, 0.117),
            top_roller=(0.877, 0.105),
        ),
        links=39,
        back=12.9,
        height=0.12,
        idler=3.63,
        sprocket=4.025,
        teeth=25,
        sag=(0.20, 0.30),
    ),
    Layout.RUBBER: Build(
        _proportions(
            lug=(0.31, 0.214),
            drive_lug=(0.452, 0.179),
            sprocket=(0.286, 0.107),
            front_idler=(4.52, 0.214),
            bottom_roller=(2.05, 0.19),
            top_roller=(1.095, 0.119),
        ),
        links=48,
        back=15.83,
        height=0.6,
        idler=4.52,
        sprocket=5.44,
        teeth=17,
        sag=(0.18, 0.36),
    ),
}

_L, _S, _G = Layout, Track.SEALED_AND_LUBRICATED, Track.GREASED
_E, _O, _X, _T, _R = _L.ELEVATED_SPROCKET, _L.OVAL, _L.EXCAVATOR, _L.TRACK_LOADER, _L.RUBBER
_DRY, _TURNING, _RUBBER = Track.DRY, Track.ROTATING_BUSHING, Track.RUBBER
_INCH = Unit.INCH

KINDS: Final = (
    MachineKind("Hollin", "H-380E", _E, _S, 190.0, 41, 7, 1, 560, 5200, 3, "dozers"),
    MachineKind("Hollin", "H-640E", _E, _S, 216.0, 45, 8, 1, 610, 5000, 6, "dozers"),
    MachineKind("Hollin", "H-930E", _E, _S, 260.0, 43, 8, 1, 710, 4600, 2, "large-dozers"),
    MachineKind("Merrow", "Crag 30", _E, _TURNING, 228.0, 44, 8, 2, 610, 5600, 3, "large-dozers"),
    MachineKind("Merrow", "Fell 8", _O, _G, 160.0, 38, 6, 1, 460, 3800, 4, "small-dozers"),
    MachineKind("Merrow", "Fell 19", _O, _DRY, 190.5, 40, 6, 2, 560, 3000, 3, "small-dozers", _INCH),
    MachineKind("Hollin", "Cob 12", _O, _S, 171.0, 39, 6, 1, 510, 4200, 5, "small-dozers"),
    MachineKind("Merrow", "Fell 31", _O, _S, 216.0, 41, 7, 2, 610, 4400, 3, "dozers"),
    MachineKind("Hollin", "Heron 9", _X, _G, 135.0, 42, 6, 1, 450, 6200, 8, "excavators"),
    MachineKind("Hollin", "Heron 24", _X, _G, 190.0, 49, 8, 2, 600, 7200, 12, "excavators"),
    MachineKind("Hollin", "Heron 50", _X, _G, 229.0, 50, 9, 2, 750, 7600, 4, "large-excavators"),
    MachineKind("Merrow", "Tarn 14", _X, _G, 171.0, 46, 7, 2, 500, 6800, 8, "excavators"),
    MachineKind("Merrow", "Tarn 22", _X, _G, 190.0, 48, 8, 2, 700, 7000, 8, "excavators", charted=False),
    MachineKind("Merrow", "Tarn 80", _X, _S, 280.0, 48, 8, 3, 900, 8000, 2, "large-excavators"),
    MachineKind("Hollin", "Drover 15", _T, _S, 171.0, 39, 7, 1, 450, 3200, 4, "small-dozers"),
    MachineKind("Hollin", "Drover 17", _T, _S, 171.0, 39, 7, 1, 450, 3200, 2, "small-dozers", chart_of="Drover 15"),
    MachineKind("Merrow", "Tor 9", _T, _G, 155.0, 38, 6, 1, 400, 2900, 3, "small-dozers", _INCH),
    MachineKind("Merrow", "Wren 4", _R, _RUBBER, 84.0, 48, 4, 1, 320, 1700, 8, "small-plant"),
    MachineKind("Merrow", "Wren 7", _R, _RUBBER, 86.0, 52, 5, 1, 400, 1900, 6, "small-plant"),
    MachineKind("Hollin", "Lark 3", _R, _RUBBER, 72.0, 44, 4, 1, 250, 1600, 6, "small-plant"),
)
