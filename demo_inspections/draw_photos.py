"""Draws the photos of the invented machines. They are drawings, and each says so in its corner.

Run `python demo_inspections/draw_photos.py` to make them anew; the same script always draws the same pictures.
Some carry an EXIF orientation and a place, as a phone writes them, so that one can see both dealt with.
"""

import math
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypedDict, Unpack

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFilter, ImageFont

HERE = Path(__file__).resolve().parent
FONTS = HERE.parent / "src" / "tracksworn" / "documents" / "fonts"
WIDE, HIGH = 1440, 960  # drawn larger than kept, for smooth edges
KEPT = (960, 640)

Tone = NDArray[np.float64] | float
Point = tuple[float, float]


def around(centre: Point, radius: float, turn: float) -> Point:
    """A point on a circle; `turn` in degrees, clockwise from the right."""
    angle = math.radians(turn)
    return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)


def _share(mask: Image.Image) -> NDArray[np.float64]:
    return np.asarray(mask, dtype=float)[:, :, None] / 255


class How(TypedDict, total=False):
    """How a shape is laid."""

    soft: float
    strength: float
    shadow: float
    tint: tuple[float, float, float]


class Sheet:
    """A grey picture that shapes are laid on, each with its own tone, edge and shadow."""

    def __init__(self, seed: int, ground: float = 92) -> None:
        self.chance = np.random.default_rng(seed)
        self.pixels = np.repeat(
            (ground + self.grain(13, 150) + self.grain(8, 30) + self.grain(7, 6))[:, :, None], 3, axis=2
        )

    def grain(self, depth: float, size: int) -> NDArray[np.float64]:
        """Cloudy unevenness, `size` pixels wide and `depth` tones deep."""
        coarse = self.chance.normal(128, 45, (HIGH // size + 2, WIDE // size + 2)).clip(0, 255).astype(np.uint8)
        cloud = Image.fromarray(coarse).resize((WIDE, HIGH), Image.Resampling.BICUBIC)
        return (np.asarray(cloud, dtype=float) - 128) / 64 * depth

    def lay(
        self,
        draw: Callable[[ImageDraw.ImageDraw], None],
        tone: Tone,
        *,
        soft: float = 0,
        strength: float = 1,
        shadow: float = 0,
        tint: tuple[float, float, float] = (1, 1, 1),
    ) -> None:
        """Lay what `draw` fills with 255; `soft` blurs its edge, `shadow` is how far it stands proud."""
        mask = Image.new("L", (WIDE, HIGH))
        draw(ImageDraw.Draw(mask))
        left, top, right, bottom = mask.getbbox() or (0, 0, 1, 1)
        reach = round(3 * soft + 4 * shadow) + 1  # only there does anything change
        box = (max(0, left - reach), max(0, top - reach), min(WIDE, right + reach), min(HIGH, bottom + reach))
        within = (slice(box[1], box[3]), slice(box[0], box[2]))
        mask = mask.crop(box)
        pixels = self.pixels[within]
        if shadow:
            cast = Image.new("L", mask.size)
            cast.paste(mask, (round(shadow / 2), round(shadow)))
            pixels *= 1 - 0.6 * _share(cast.filter(ImageFilter.GaussianBlur(shadow)))
        share = _share(mask.filter(ImageFilter.GaussianBlur(soft)) if soft else mask) * strength
        layer = np.broadcast_to(np.asarray(tone, dtype=float), (HIGH, WIDE))[within][:, :, None] * np.array(tint)
        self.pixels[within] = pixels * (1 - share) + layer * share

    def disc(self, centre: Point, radius: float, tone: Tone, **how: Unpack[How]) -> None:
        """A round part, seen along its axis."""
        x, y = centre
        self.lay(lambda d: d.ellipse((x - radius, y - radius, x + radius, y + radius), fill=255), tone, **how)

    def plate(self, corners: Iterable[Point], tone: Tone, **how: Unpack[How]) -> None:
        """A flat part."""
        outline = list(corners)
        self.lay(lambda d: d.polygon(outline, fill=255), tone, **how)

    def line(self, points: Iterable[Point], width: int, tone: Tone, **how: Unpack[How]) -> None:
        """A stroke of that width."""
        path = list(points)
        self.lay(lambda d: d.line(path, fill=255, width=width, joint="curve"), tone, **how)

    def bolt(self, centre: Point, radius: float = 34) -> None:
        """A hexagon head on its washer."""
        self.disc(centre, radius * 1.45, self.turned(centre, 120), shadow=8)
        self.plate((around(centre, radius, turn) for turn in range(10, 370, 60)), 150 + self.grain(14, 20), shadow=10)
        self.disc(centre, radius * 0.55, 168.0)

    def turned(self, centre: Point, base: float) -> NDArray[np.float64]:
        """The sheen of a turned or running face round its axis."""
        y, x = np.mgrid[0:HIGH, 0:WIDE]
        turn = np.arctan2(y - centre[1], x - centre[0])
        ring = np.hypot(x - centre[0], y - centre[1])
        sheen: NDArray[np.float64] = base + 26 * np.cos(2 * turn + 0.9) + 5 * np.sin(ring / 3.1) + self.grain(9, 30)
        return sheen

    def barrel(self, top: float, bottom: float, base: float) -> NDArray[np.float64]:
        """A cylinder that lies across, lit from above."""
        y = np.mgrid[0:HIGH, 0:WIDE][0]
        across = ((y - top) / (bottom - top)).clip(0, 1)
        lit: NDArray[np.float64] = base * (0.35 + 0.85 * np.sin(math.pi * (0.12 + 0.8 * across))) + self.grain(8, 40)
        return lit

    def text(self, at: Point, words: str, size: int, tone: float, weight: str = "600") -> None:
        """Stamped or printed words."""
        font = ImageFont.truetype(FONTS / f"BarlowSemiCondensed-{weight}.ttf", size)
        self.lay(lambda d: d.text(at, words, font=font, fill=255), tone)

    def save(self, path: Path, orientation: int = 1, *, place: bool = False) -> None:
        """Darken the corners, roughen, mark as drawn and write."""
        y, x = np.mgrid[-1 : 1 : HIGH * 1j, -1 : 1 : WIDE * 1j]
        self.pixels *= (1.04 - 0.28 * (x**2 + y**2) / 2)[:, :, None]
        self.pixels += self.chance.normal(0, 5, (HIGH, WIDE))[:, :, None]
        self.plate([(0, HIGH - 112), (WIDE, HIGH - 112), (WIDE, HIGH), (0, HIGH)], 245.0)
        self.text((30, HIGH - 104), "drawn, not a photograph", 84, 26.0, "500")
        picture = Image.fromarray(self.pixels.clip(0, 255).astype(np.uint8)).resize(KEPT, Image.Resampling.LANCZOS)
        as_held = {6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270, 3: Image.Transpose.ROTATE_180}
        exif = Image.Exif()
        if orientation != 1:
            picture = picture.transpose(as_held[orientation])
            exif[0x0112] = orientation
        if place:
            exif[0x8825] = {1: "N", 2: (0.0, 7.0, 30.0), 3: "E", 4: (0.0, 41.0, 6.0)}  # at sea
        path.parent.mkdir(parents=True, exist_ok=True)
        picture.save(path, quality=62, optimize=True, exif=exif)


def roller(seed: int, *, oil: bool = False, adapted: bool = False, flat: bool = False) -> Sheet:
    """A roller seen along its shaft, between frame and rail."""
    sheet, centre = Sheet(seed, 70), (720.0, 470.0)
    sheet.plate([(0, 0), (WIDE, 0), (WIDE, 250), (0, 215)], 112 + sheet.grain(16, 60), shadow=26)
    sheet.plate([(0, 800), (WIDE, 800), (WIDE, HIGH), (0, HIGH)], 128 + sheet.grain(18, 50), shadow=12)
    sheet.disc(centre, 342, sheet.turned(centre, 100), shadow=24)
    sheet.disc(centre, 282, sheet.turned(centre, 158), shadow=6)
    sheet.disc(centre, 196, sheet.turned(centre, 112), shadow=10)
    for turn in range(15, 375, 45):
        sheet.disc(around(centre, 158, turn), 16, 150.0, shadow=5)
    sheet.disc(centre, 118, sheet.turned(centre, 165 if adapted else 138), shadow=16)
    if adapted:
        for radius, tone in ((100, 66), (92, 176), (76, 70), (68, 150)):
            sheet.disc(centre, radius, sheet.turned(centre, tone))
    sheet.disc(centre, 46, 78 + sheet.grain(10, 20), shadow=6)
    if flat:
        sheet.plate([(470, 130), (970, 130), (905, 236), (535, 236)], 64 + sheet.grain(14, 40))
        sheet.line([(528, 238), (912, 238)], 9, 226.0, soft=2)
    if oil:
        seal = [around(centre, 150, turn) for turn in range(20, 161, 10)]
        sheet.line(seal, 66, 30.0, soft=12, strength=0.75)
        for x, foot, width in ((598, 770, 34), (668, 946, 78), (742, 900, 58), (806, 820, 40), (850, 700, 24)):
            run = [(x, 560), (x + 8, (560 + foot) / 2), (x - 6, foot)]
            sheet.line(run, width, 24 + sheet.grain(8, 40), soft=8, strength=0.9)
            sheet.line([(x - width / 5, 585), (x - width / 6, foot - 60)], 6, 188.0, soft=4, strength=0.6)
    return sheet


def pin_end() -> Sheet:
    """A link's side with the end of a pin blued by heat."""
    sheet, centre = Sheet(31, 66), (700.0, 500.0)
    bar = [(0, 300), (420, 300), (520, 190), (880, 190), (1010, 320), (WIDE, 330), (WIDE, 700), (980, 700)]
    sheet.plate([*bar, (880, 830), (520, 830), (410, 690), (0, 690)], 118 + sheet.grain(20, 60), shadow=26)
    sheet.disc(centre, 280, sheet.turned(centre, 128), shadow=12)
    sheet.disc(centre, 214, 50 + sheet.grain(16, 20), tint=(1.5, 1.02, 0.78))
    for radius, tone, tint in (
        (196, 118, (1.12, 1.02, 0.84)),
        (170, 104, (0.98, 0.86, 1.14)),
        (138, 96, (0.74, 0.88, 1.34)),
        (92, 132, (0.9, 0.98, 1.14)),
    ):
        sheet.disc(centre, radius, sheet.turned(centre, tone), soft=9, tint=tint)
    sheet.disc(centre, 24, 46.0, soft=3)
    for x in (120, 1180):
        sheet.plate([(x, 420), (x + 150, 420), (x + 150, 580), (x, 580)], 48 + sheet.grain(12, 40), soft=4)
    return sheet


def idler_rim() -> Sheet:
    """An idler's rim from the front: two treads, the centre flange, its inner face worn bright."""
    sheet = Sheet(5, 58)
    for left, right, base in ((180, 500, 176), (940, 1260, 186)):
        sheet.plate([(left, 0), (right, 0), (right, HIGH), (left, HIGH)], sheet.barrel(-200, 1100, base), shadow=14)
    sheet.plate([(500, 0), (940, 0), (940, HIGH), (500, HIGH)], sheet.barrel(-260, 1160, 122), shadow=34)
    sheet.plate([(868, 0), (940, 0), (940, HIGH), (868, HIGH)], sheet.barrel(-200, 1100, 224), soft=2)
    sheet.line([(866, 0), (866, HIGH)], 7, 40.0, soft=2)
    sheet.line([(944, 0), (944, HIGH)], 12, 34.0, soft=4)
    for y in range(20, HIGH, 37):
        sheet.line([(872, y), (938, y + 22)], 3, 255.0, soft=1, strength=0.5)
    return sheet


def sprocket(seed: int, *, pointed: bool = False, mud: bool = False) -> Sheet:
    """Teeth of a sprocket; with mud, as little of them as can be seen."""
    sheet, hub = Sheet(seed, 74), (720.0, 1250.0)
    for turn in range(-135, -40, 15):
        sheet.disc(around(hub, 905, turn + 7.5), 78, sheet.turned(around(hub, 905, turn + 7.5), 140), shadow=14)
    tip, reach = (0.8, 1010) if pointed else (1.9, 985)
    outline: list[Point] = []
    for turn in range(-150, -29, 15):
        outline += [around(hub, 800, turn - 5.6), around(hub, 862, turn - 3.4), around(hub, reach, turn - tip)]
        outline += [around(hub, reach, turn + tip), around(hub, 862, turn + (2.6 if pointed else 3.1))]
        outline += [around(hub, 800, turn + 5.2)]
    sheet.plate([*outline, (WIDE, HIGH), (0, HIGH)], sheet.turned(hub, 132), shadow=22)
    for turn in range(-150, -29, 15):
        edge = [around(hub, 806, turn - 5), around(hub, 862, turn - 3.2), around(hub, reach - 8, turn - tip + 0.2)]
        sheet.line(edge, 15, 226.0, soft=3, strength=0.85)
    sheet.disc(hub, 640, sheet.turned(hub, 96), shadow=16)
    for turn in range(-130, -40, 20):
        sheet.bolt(around(hub, 715, turn), 26)
    if mud:
        for _ in range(120):
            spot = (sheet.chance.uniform(-40, WIDE + 40), sheet.chance.normal(760, 170))
            tone = sheet.chance.uniform(58, 96) + sheet.grain(14, 16)
            sheet.disc(spot, sheet.chance.uniform(40, 135), tone, soft=7, tint=(1.12, 1.0, 0.84))
    return sheet


def shoes(seed: int, *, bent: bool = False, rounded: bool = False, welded: bool = False) -> Sheet:
    """A row of shoes from above, their grousers across."""
    sheet = Sheet(seed, 46)
    for row, top in enumerate(range(20, HIGH, 236)):
        corner = 120 if bent and row == 2 else 0
        plate = [(90, top), (1350, top), (1350, top + 205 - corner), (1350 - corner * 2, top + 205), (90, top + 205)]
        sheet.plate(plate, 104 + sheet.grain(18, 60), shadow=16)
        if corner:
            fold = [(1350, top + 85), (1350, top + 160), (1200, top + 235), (1110, top + 205)]
            sheet.plate(fold, 176 + sheet.grain(10, 30), shadow=18)
        ridge = sheet.barrel(top + 58, top + 128, 176 if rounded else 205)
        sheet.plate([(90, top + 62), (1350, top + 62), (1350, top + 124), (90, top + 124)], ridge, shadow=20)
        if not rounded:
            sheet.line([(90, top + 66), (1350, top + 66)], 6, 232.0)
        if welded:
            beads = [(x, top + 130 + 9 * (x // 18 % 2)) for x in range(90, 1351, 18)]
            sheet.line(beads, 16, 58 + sheet.grain(16, 14), soft=2)
        for x in (470, 900):
            sheet.bolt((x, top + 168), 15)
    return sheet


def bolts(seed: int, *, missing: bool) -> Sheet:
    """The four bolts of a shoe: one hole empty, or one head standing off."""
    sheet = Sheet(seed, 112)
    sheet.plate([(0, 430), (WIDE, 430), (WIDE, 545), (0, 545)], sheet.barrel(425, 550, 190), shadow=24)
    for centre in ((380.0, 250.0), (1060.0, 250.0), (380.0, 730.0)):
        sheet.bolt(centre, 66)
    odd = (1060.0, 730.0)
    if missing:
        sheet.disc(odd, 92, 150 + sheet.grain(20, 16), tint=(1.1, 1.0, 0.88))
        sheet.disc(odd, 52, 18.0, soft=3)
    else:
        sheet.disc(odd, 108, 62 + sheet.grain(12, 20), soft=5)
        sheet.lay(lambda d: d.line([(1000, 660), (1120, 800)], fill=255, width=10), 232.0, soft=2, shadow=4)
        sheet.bolt((1078.0, 712.0), 66)
    return sheet


def cord() -> Sheet:
    """A rubber track's outer edge, its steel cord bare."""
    sheet = Sheet(77, 44)
    for x in range(-60, WIDE, 300):
        lug = [(x, 90), (x + 200, 90), (x + 222, 560), (x - 22, 560)]
        sheet.plate(lug, 62 + sheet.grain(10, 30), shadow=30)
        sheet.line([(x + 4, 96), (x + 196, 96)], 8, 104.0, soft=3)
    tear = [
        (210, 640),
        (420, 598),
        (760, 612),
        (1090, 590),
        (1260, 650),
        (1220, 800),
        (900, 838),
        (520, 826),
        (260, 790),
    ]
    sheet.plate(tear, 26 + sheet.grain(8, 20), soft=4)
    for strand in range(11):
        y = 632 + strand * 17
        reach = 1215 - 45 * (strand % 3) - (260 if strand in (4, 7) else 0)
        path = [(262 + 22 * (strand % 2), y), (560, y + 5), (820, y - 3), (reach, y + (30 if reach < 1000 else 3))]
        sheet.line(path, 11, 196 + sheet.grain(30, 8), shadow=5, tint=(1.06, 1.0, 0.92))
    return sheet


def plate(lines: list[str], seed: int) -> Sheet:
    """A machine's data plate."""
    sheet = Sheet(seed, 120)
    sheet.plate([(190, 150), (1250, 150), (1250, 800), (190, 800)], sheet.barrel(-100, 1400, 214), shadow=16)
    sheet.line([(222, 182), (1218, 182), (1218, 768), (222, 768), (222, 182)], 5, 70.0)
    for centre in ((250.0, 212.0), (1190.0, 212.0), (250.0, 738.0), (1190.0, 738.0)):
        sheet.disc(centre, 17, sheet.turned(centre, 150), shadow=6)
    for row, words in enumerate(lines):
        sheet.text((300, 235 + 118 * row), words, 92 if row == 0 else 72, 44.0, "700" if row == 0 else "600")
        sheet.line([(300, 345 + 118 * row), (1140, 345 + 118 * row)], 2, 96.0)
    return sheet


def meter(digits: str) -> Sheet:
    """An hour meter with its drums."""
    sheet = Sheet(12, 60)
    sheet.disc((720, 470), 400, sheet.turned((720, 470), 130), shadow=22)
    sheet.disc((720, 470), 360, 24 + sheet.grain(5, 40))
    sheet.text((600, 180), "HOURS", 92, 220.0)
    for place, digit in enumerate(digits):
        x, last = 430 + place * 118, place == len(digits) - 1
        drum = sheet.barrel(390, 590, 232 if last else 70)
        sheet.plate([(x, 400), (x + 106, 400), (x + 106, 580), (x, 580)], drum, shadow=4)
        sheet.text((x + 24, 398), digit, 140, 30.0 if last else 238.0, "500")
    sheet.plate([(430, 180), (610, 130), (430, 560), (380, 480)], 255.0, soft=26, strength=0.16)
    return sheet


def side(seed: int, wheels: list[tuple[Point, float]], rollers: list[Point]) -> Sheet:
    """A whole track from the side: `wheels` clockwise, with their radii to the chain."""
    sheet = Sheet(seed, 150)
    sheet.plate([(0, 790), (WIDE, 770), (WIDE, HIGH), (0, HIGH)], 96 + sheet.grain(20, 50))
    path = _round_the_wheels(wheels)
    sheet.plate(path, 74 + sheet.grain(8, 60), shadow=30)
    (left, low), (right, _) = rollers[0], rollers[-1]
    sheet.plate([(left - 40, low - 120), (right + 40, low - 120), (right + 60, low - 18), (left - 60, low - 18)], 126.0)
    for centre, radius in wheels:
        sheet.disc(centre, radius - 26, sheet.turned(centre, 128), shadow=8)
        sheet.disc(centre, radius * 0.5, sheet.turned(centre, 92), shadow=6)
    for centre in rollers:
        sheet.disc(centre, 40, sheet.turned(centre, 140), shadow=6)
        sheet.disc(centre, 14, 70.0)
    sheet.line([*path, path[0], path[1]], 34, 92 + sheet.grain(14, 30))
    for (x, y), (ahead_x, ahead_y) in zip(path, path[1:] + path[:1], strict=True):
        step = math.hypot(ahead_x - x, ahead_y - y) or 1
        out = ((ahead_y - y) / step, -(ahead_x - x) / step)
        sheet.line([(x + out[0] * 14, y + out[1] * 14), (x + out[0] * 42, y + out[1] * 42)], 12, 58.0)
        sheet.line([(x - out[0] * 12, y - out[1] * 12), (x + out[0] * 8, y + out[1] * 8)], 4, 196.0)
    return sheet


def _round_the_wheels(wheels: list[tuple[Point, float]]) -> list[Point]:
    """Points a link apart on the belt round the wheels: the hull of their rims, walked in equal steps."""
    rims = sorted({(*around(centre, radius, turn),) for centre, radius in wheels for turn in range(0, 360, 4)})
    hull: list[Point] = []
    for points in (rims, rims[::-1]):
        half: list[Point] = []
        for x, y in points:
            while len(half) > 1 and _turns_back(half[-2], half[-1], (x, y)):
                half.pop()
            half.append((x, y))
        hull += half[:-1]
    corners = np.array([*hull, hull[0]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(corners, axis=0).T))])
    stops = np.linspace(0, along[-1], round(along[-1] / 58), endpoint=False)
    return list(zip(np.interp(stops, along, corners[:, 0]), np.interp(stops, along, corners[:, 1]), strict=True))


def _turns_back(a: Point, b: Point, c: Point) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) <= 0


def in_a_row(first: float, last: float, y: float, count: int) -> list[Point]:
    """Centres of rollers, evenly spaced."""
    return [(first + (last - first) * number / (count - 1), y) for number in range(count)]


RAISED = [((250.0, 650.0), 132.0), ((960.0, 330.0), 138.0), ((1190.0, 650.0), 132.0)]
LOW = [((240.0, 640.0), 150.0), ((1200.0, 640.0), 150.0)]

PICTURES: dict[str, Callable[[], Sheet]] = {
    "MPS-2031-0418/photos/left-side.jpg": lambda: side(1, RAISED, in_a_row(440, 1000, 742, 8)),
    "MPS-2031-0418/photos/plate.jpg": lambda: plate(["HOLLIN", "Model  H-640E", "Serial  HLN640E0K00412", "2024"], 2),
    "MPS-2031-0418/photos/meter.jpg": lambda: meter("84120"),
    "MPS-2031-0418/photos/roller-l3.jpg": lambda: roller(3, oil=True),
    "MPS-2031-0418/photos/pin-l31.jpg": pin_end,
    "MPS-2031-0418/photos/idler-l.jpg": idler_rim,
    "MPS-2031-0418/photos/sprocket-l.jpg": lambda: sprocket(7),
    "MPS-2031-0418/photos/shoe-r12.jpg": lambda: shoes(8, bent=True),
    "OXB-0227/photos/plate.jpg": lambda: plate(["MERROW", "Fell 19", "No.  F19-02267", "2019"], 9),
    "OXB-0227/photos/top-roller-r2.jpg": lambda: roller(10, flat=True),
    "OXB-0227/photos/sprocket-l.jpg": lambda: sprocket(11, pointed=True),
    "OXB-0227/photos/shoe-bolt-r27.jpg": lambda: bolts(12, missing=True),
    "OXB-0231/photos/left-side.jpg": lambda: side(13, LOW, in_a_row(400, 1040, 742, 8)),
    "OXB-0231/photos/roller-l8.jpg": lambda: roller(14, oil=True),
    "OXB-0231/photos/grousers-l.jpg": lambda: shoes(15, rounded=True),
    "OXB-0231/photos/sprocket-r.jpg": lambda: sprocket(16, mud=True),
    "MPS-2031-0402/photos/plate.jpg": lambda: plate(["HOLLIN", "Heron 24", "HLNHRN24K00031176", "2030"], 17),
    "MPS-2031-0402/photos/shoe-bolt-r31.jpg": lambda: bolts(18, missing=False),
    "OXB-0236/photos/meter.jpg": lambda: meter("22904"),
    "OXB-0236/photos/cord-l.jpg": cord,
    "MPS-2031-0433/photos/plate.jpg": lambda: plate(["HOLLIN", "Drover 17", "HLNDRV17C00220", "2026"], 21),
    "MPS-2031-0433/photos/sprocket-l.jpg": lambda: sprocket(22),
    "MPS-2031-0433/photos/roller-r7.jpg": lambda: roller(23, adapted=True),
    "MPS-2031-0433/photos/grousers-l.jpg": lambda: shoes(24, welded=True),
}
HELD = {
    "MPS-2031-0418/photos/plate.jpg": 6,
    "MPS-2031-0418/photos/shoe-r12.jpg": 3,
    "OXB-0227/photos/plate.jpg": 8,
    "OXB-0236/photos/cord-l.jpg": 6,
}
WITH_PLACE = {
    "MPS-2031-0418/photos/roller-l3.jpg",
    "OXB-0227/photos/plate.jpg",
    "OXB-0231/photos/left-side.jpg",
}


def main() -> None:
    """Draw them all."""
    for name, draw in PICTURES.items():
        draw().save(HERE / name, HELD.get(name, 1), place=name in WITH_PLACE)


if __name__ == "__main__":
    main()
