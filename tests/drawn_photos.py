"""Photos as large as cameras make them, drawn when asked for, and what a fresh process takes for them."""

import os
import subprocess
import sys
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

import pillow_heif
from PIL import Image, ImageDraw

FULL = (8064, 6048)
"""48.8 megapixels."""
FORMS = ("JPEG", "PNG", "HEIC")
INSPECTION = (
    "tracksworn: inspection 1\nnumber: P\ninspected: 2031-04-18\ninspector: {name: Ines Marlow}\n"
    "machine: {maker: Hollin, model: H, serial: S, layout: oval}\nchart: none (none made)\n"
    "readings: {link: {left: by eye about 40 %}}\nphotos:\n"
)
_MEASURED = """
import sys, time
def most():
    with open("/proc/self/status") as lines:
        return next(int(line.split()[1]) / 1024 for line in lines if line.startswith("VmHWM"))
{before}
held, began = most(), time.perf_counter()
{work}
print("took", time.perf_counter() - began, most() - held)
"""


@dataclass(frozen=True, slots=True)
class Taken:
    """What work takes in a fresh interpreter: seconds, and MiB at most beyond those held when it begins."""

    seconds: float
    mib: float


def drawn(size: tuple[int, int] = FULL) -> Image.Image:
    """Ground, sky and a track of rings, soft enough that no encoder takes long."""
    width, height = size
    picture = Image.linear_gradient("L").resize(size).convert("RGB")
    pencil = ImageDraw.Draw(picture)
    for index in range(24):
        x, y, wide = (index * 37 % 100) * width // 100, (index * 61 % 100) * height // 100, width // 12
        shade = (40 + index * 8, 200 - index * 6, 30 + index * 47 % 200)
        pencil.ellipse((x, y, x + wide, y + wide), fill=shade, outline="black", width=max(1, width // 400))
    return picture


@cache
def photo(form: str, size: tuple[int, int] = FULL) -> bytes:
    """A drawn photo as a file of one of the forms, HEIC in tiles of 512 pixels as phones write it."""
    sheet = BytesIO()
    if form == "HEIC":
        pillow_heif.from_pillow(drawn(size)).save(sheet, quality=50, tile_size=512, enc_params={"preset": "ultrafast"})
    else:
        drawn(size).save(sheet, form, **({"quality": 92} if form == "JPEG" else {"compress_level": 1}))
    return sheet.getvalue()


def inspection_with(folder: Path, content: bytes, count: int, form: str) -> Path:
    """An inspection by eye with so many photos, each a file of its own name; its folder."""
    photos = folder / f"P{count}{form}" / "photos"
    photos.mkdir(parents=True)
    names = [f"{index}.{form.lower()}" for index in range(count)]
    (photos / names[0]).write_bytes(content)
    for name in names[1:]:
        os.link(photos / names[0], photos / name)
    listed = "".join(f"  - {{file: photos/{name}, caption: Photo {name}}}\n" for name in names)
    (photos.parent / "inspection.yaml").write_text(INSPECTION + listed, encoding="utf-8")
    return photos.parent


def taken(before: str, work: str, *arguments: object) -> Taken:
    """What a script takes in a process of its own, after another that is not counted; memory as Linux counts it."""
    command = [sys.executable, "-c", _MEASURED.format(before=before, work=work), *map(str, arguments)]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    seconds, mib = done.stdout.rpartition("took")[2].split()
    return Taken(float(seconds), float(mib))
