"""The files of the long examples, whole, in a folder of their own."""

import shutil
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from tiny_font import tiny_font

EXAMPLE = Path(__file__).with_name("example")
PHOTOS = ("plate.jpg", "meter.jpg", "roller-l3.jpg", "left-side.jpg")


def picture(shade: int = 120) -> bytes:
    stream = BytesIO()
    Image.new("RGB", (8, 6), (shade, shade, shade)).save(stream, "JPEG")
    return stream.getvalue()


@pytest.fixture
def example(tmp_path: Path) -> Path:
    """A copy with photos and a font file; MPS-2031-0418 is the long example, OXB-0231 the least."""
    folder = tmp_path / "example"
    shutil.copytree(EXAMPLE, folder)
    photos = folder / "MPS-2031-0418" / "photos"
    photos.mkdir()
    for shade, name in enumerate(PHOTOS):
        (photos / name).write_bytes(picture(shade))
    (folder / "letterheads" / "NotoSansJP.ttf").write_bytes(tiny_font("\u65e5\u672c"))
    return folder


@pytest.fixture
def least() -> str:
    """The head of an inspection, up to its readings."""
    return (
        "tracksworn: inspection 1\nnumber: A\ninspected: 2031-04-18\ninspector: {name: Ines Marlow}\n"
        "machine: {maker: Hollin, model: H, serial: S, layout: oval}\nchart: none (none made)\nreadings:\n"
    )
