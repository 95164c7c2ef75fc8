"""A small sheet made as every document is, and what can be spoiled in it."""

from functools import cache
from io import BytesIO
from typing import Final

import pikepdf
from PIL import Image

from tracksworn.documents.attached import Attachment, Relationship
from tracksworn.documents.render import engine
from tracksworn.documents.render.accessible import declare_accessible
from tracksworn.documents.render.attaching import attach

_PAGE: Final = (
    '<html lang="en"><head><title>A small sheet</title></head><body><h1>A small sheet</h1><p>With words.</p>'
    '<img src="part:dot" alt="A dot" style="width:3mm"/></body></html>'
)
_STYLE: Final = 'body { font-family: "Barlow" } img { image-rendering: crisp-edges }'


@cache
def sound() -> bytes:
    """A sheet with text, a picture and an attachment, in which no judge finds a fault."""
    dot, out = BytesIO(), BytesIO()
    Image.new("RGB", (4, 4)).save(dot, "PNG")
    sheets = engine.lay_out(_PAGE, [_STYLE], {"part:dot": engine.Part(dot.getvalue(), "image/png")})
    with pikepdf.open(BytesIO(sheets.write())) as pdf:
        declare_accessible(pdf)
        attach(pdf, [Attachment("a/b.yaml", b"a: 1", "application/yaml", Relationship.SOURCE, "A file")], "2031-04-18")
        pdf.save(out, deterministic_id=True)
    return out.getvalue()


def font_left_out(pdf: pikepdf.Pdf) -> None:
    for descriptor in _all(pdf, "/Type", "/FontDescriptor"):
        del descriptor.FontFile2


def not_called_a_subset(pdf: pikepdf.Pdf) -> None:
    for font in _all(pdf, "/Type", "/Font"):
        font.BaseFont = pikepdf.Name("/" + str(font.BaseFont).partition("+")[2])


def no_relationship(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.AF[0]["/AFRelationship"]


def not_associated(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.AF


def no_media_type(pdf: pikepdf.Pdf) -> None:
    del pdf.Root.AF[0].EF.UF["/Subtype"]


def no_title(pdf: pikepdf.Pdf) -> None:
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
        del metadata["dc:title"]


def title_not_shown(pdf: pikepdf.Pdf) -> None:
    pdf.Root.ViewerPreferences.DisplayDocTitle = False


def no_language(pdf: pikepdf.Pdf) -> None:
    del pdf.Root["/Lang"]


def no_tags(pdf: pikepdf.Pdf) -> None:
    del pdf.Root["/StructTreeRoot"]


def no_alternative(pdf: pikepdf.Pdf) -> None:
    for figure in _all(pdf, "/S", "/Figure"):
        del figure["/Alt"]


def not_declared(pdf: pikepdf.Pdf) -> None:
    stream = pdf.Root.Metadata
    stream.write(stream.read_bytes().replace(b"<pdfuaid:part>1</pdfuaid:part>", b""))


def script(pdf: pikepdf.Pdf) -> None:
    pdf.Root.OpenAction = pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS="app.alert(1)")


def _all(pdf: pikepdf.Pdf, key: str, value: str) -> list[pikepdf.Dictionary]:
    found = [one for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and one.get(key) == value]
    assert found, f"no {value} to spoil"
    return found
