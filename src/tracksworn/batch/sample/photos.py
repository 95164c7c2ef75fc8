"""Small drawn pictures in the place of photos: a run of track as it might have stood."""

from collections.abc import Mapping
from io import BytesIO
from typing import Final

from PIL import Image, ImageDraw

from tracksworn.batch.sample.dice import Dice
from tracksworn.batch.sample.machine import SampleMachine

_SIZE: Final = (640, 480)
_GROUND: Final = ((122, 110, 92), (146, 138, 122), (104, 98, 90))
_STEEL: Final = ((74, 72, 70), (92, 84, 74), (110, 96, 80))


def drawn_photos(machine: SampleMachine, count: int) -> Mapping[str, bytes]:
    """So many pictures of it by path from the inspection's folder, as JPEG of some 15 kB."""
    return {f"photos/{number}.jpg": _drawn(machine.dice("photo", number)) for number in range(1, count + 1)}


def _drawn(dice: Dice) -> bytes:
    width, height = _SIZE
    grey = dice.whole(165, 215)
    picture = Image.new("RGB", _SIZE, (grey, grey + 6, grey + 12))
    draw = ImageDraw.Draw(picture)
    ground = dice.whole(320, 380)
    draw.rectangle((0, ground, width, height), fill=dice.among(_GROUND))
    steel = dice.among(_STEEL)
    radius, first = dice.whole(44, 70), dice.whole(-30, 40)
    for x in range(first, width + radius, 2 * radius + dice.whole(14, 40)):
        _roller(draw, x, ground - 36 - radius, radius, steel)
    _chain(draw, ground, dice.whole(60, 90), dice.whole(-50, 0), steel)
    _mud(draw, dice, ground)
    out = BytesIO()
    picture.save(out, "JPEG", quality=72)
    return out.getvalue()


def _roller(draw: ImageDraw.ImageDraw, x: int, y: int, radius: int, steel: tuple[int, int, int]) -> None:
    for part, lighter in ((1.0, 0), (0.8, 26), (0.3, -22)):
        reach = round(radius * part)
        colour = (steel[0] + lighter, steel[1] + lighter, steel[2] + lighter)
        draw.ellipse((x - reach, y - reach, x + reach, y + reach), fill=colour)


def _chain(draw: ImageDraw.ImageDraw, ground: int, pitch: int, first: int, steel: tuple[int, int, int]) -> None:
    dark = (steel[0] - 24, steel[1] - 24, steel[2] - 24)
    for x in range(first, _SIZE[0] + pitch, pitch):
        draw.rectangle((x, ground - 36, x + pitch - 4, ground - 8), fill=steel)
        draw.ellipse((x + 6, ground - 32, x + 28, ground - 10), fill=dark)
        draw.rectangle((x - 2, ground - 8, x + pitch - 6, ground + 4), fill=dark)
        draw.polygon([(x + 8, ground + 4), (x + 24, ground + 4), (x + 14, ground + 34)], fill=dark)


def _mud(draw: ImageDraw.ImageDraw, dice: Dice, ground: int) -> None:
    for _ in range(dice.whole(20, 60)):
        x, y, reach = dice.whole(0, _SIZE[0]), dice.whole(ground - 120, ground + 60), dice.whole(2, 9)
        draw.ellipse((x, y, x + 2 * reach, y + reach), fill=(112, 94, 70))
