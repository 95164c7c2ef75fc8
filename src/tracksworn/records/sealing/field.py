"""Empty signature fields that a sealed file keeps its standards with.

A field that stands nowhere in the structure tree breaks PDF/UA-1 (ISO 14289-1, 7.18.1 and 7.18.4), one that is hidden
breaks PDF/A-3 (ISO 19005-3, 6.3.2). So each is put in before anything is signed: printed and locked (ISO 32000-1,
table 165), with words for who has the page read aloud, and as a Form in the structure tree.

The seal's lies over the panel that the pages show, where there is one, and draws nothing: whoever clicks there is told
of the signature by the reader itself. The others have no area.
"""

from collections.abc import Mapping, Sequence
from enum import StrEnum
from io import BytesIO
from typing import Final

import pikepdf

from tracksworn.documents.render.panel import panel_in
from tracksworn.documents.words import seal as words
from tracksworn.documents.words.language import Language
from tracksworn.inspection.languages import not_a_language
from tracksworn.records.plainly import plainly
from tracksworn.records.sealing.signer import UnusableFile

PRINTED_AND_LOCKED: Final = 132
SIGNED_AND_APPENDED_TO: Final = 3  # ISO 32000-1, table 219


class Field(StrEnum):
    """The names of the fields."""

    SEAL = "seal"
    COUNTERSIGNATURE = "countersignature"
    ARCHIVE_TIME = "archive-time"
    ARCHIVE_TIME_2 = "archive-time-2"
    ARCHIVE_TIME_3 = "archive-time-3"
    ARCHIVE_TIME_4 = "archive-time-4"


ARCHIVE_TIMES: Final = (Field.ARCHIVE_TIME, Field.ARCHIVE_TIME_2, Field.ARCHIVE_TIME_3, Field.ARCHIVE_TIME_4)
"""Room for as many: each is good for as long as its authority's certificate, which is ten years or so."""
_SAID: Final[Mapping[Field, str]] = {
    Field.SEAL: words.SEAL,
    Field.COUNTERSIGNATURE: words.COUNTERSIGNATURE,
    **dict.fromkeys(ARCHIVE_TIMES, words.ARCHIVE_TIME),
}


def put_in(content: bytes, fields: Sequence[Field]) -> bytes:
    """A tagged PDF with empty signature fields: the seal's over its panel, others on the last page.

    The same bytes each time.

    Raises UnusableFile where it is no tagged PDF, or has a form already, as a file that is signed has.
    """
    out = BytesIO()
    with _opened(content) as pdf:
        _refuse(pdf)
        language = _language(pdf)
        put = [_field(pdf, each, language.say(_SAID[each]), *_place(pdf, each)) for each in fields]
        form = pikepdf.Dictionary(Fields=pikepdf.Array(put), SigFlags=SIGNED_AND_APPENDED_TO)
        pdf.Root.AcroForm = pdf.make_indirect(form)
        pdf.save(out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return out.getvalue()


def _opened(content: bytes) -> pikepdf.Pdf:
    try:
        return pikepdf.open(BytesIO(content))
    except pikepdf.PdfError as error:
        raise UnusableFile(f"only a PDF can be sealed, and this is none that can be read: {plainly(error)}") from error


def _refuse(pdf: pikepdf.Pdf) -> None:
    if "/AcroForm" in pdf.Root or "/Perms" in pdf.Root:
        raise UnusableFile(
            "this PDF has a form or a signature already; a seal goes into a document as `report` writes it"
        )
    if "/StructTreeRoot" not in pdf.Root:
        raise UnusableFile("this PDF has no structure tree; a seal goes into a document as `report` writes it")


def _language(pdf: pikepdf.Pdf) -> Language:
    said = str(pdf.Root.get("/Lang", "en"))
    return Language("en" if not_a_language(said) else said)


def _document(pdf: pikepdf.Pdf) -> pikepdf.Object:
    """The root element of the structure tree."""
    root = pdf.Root.StructTreeRoot
    kids = root.K
    return kids[0] if isinstance(kids, pikepdf.Array) else kids


def _place(pdf: pikepdf.Pdf, each: Field) -> tuple[pikepdf.Object, pikepdf.Array]:
    """The page that a field is on, and its area there."""
    nowhere = pdf.pages[-1].obj, pikepdf.Array([0, 0, 0, 0])
    return (panel_in(pdf) or nowhere) if each is Field.SEAL else nowhere


def _field(pdf: pikepdf.Pdf, each: Field, said: str, page: pikepdf.Object, area: pikepdf.Array) -> pikepdf.Dictionary:
    field = pdf.make_indirect(
        pikepdf.Dictionary(
            Type=pikepdf.Name.Annot,
            Subtype=pikepdf.Name.Widget,
            FT=pikepdf.Name.Sig,
            T=pikepdf.String(each.value),
            TU=pikepdf.String(said),
            F=PRINTED_AND_LOCKED,
            Rect=area,
            P=page,
        )
    )
    if any(area):  # what has an area must say how it looks (ISO 19005-3, 6.3.3)
        field.AP = pikepdf.Dictionary(N=_nothing(pdf, area))
    page.Annots = pikepdf.Array([*page.get("/Annots", ()), field])
    page.Tabs = pikepdf.Name.S
    _tell(pdf, field, page)
    return field


def _nothing(pdf: pikepdf.Pdf, area: pikepdf.Array) -> pikepdf.Object:
    """The look of a field that lets what is under it be seen."""
    left, bottom, right, top = area
    box = pikepdf.Array([0, 0, right - left, top - bottom])
    return pikepdf.Stream(pdf, b"", Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Form, BBox=box)


def _tell(pdf: pikepdf.Pdf, field: pikepdf.Object, page: pikepdf.Object) -> None:
    """Put a field into the structure tree, at its end."""
    tree, document = pdf.Root.StructTreeRoot, _document(pdf)
    key = _next_key(tree)
    # The one reference, not a list of one: so a checker of later changes finds its way from the tree to the field.
    reference = pikepdf.Dictionary(Type=pikepdf.Name.OBJR, Obj=field, Pg=page)
    element = pikepdf.Dictionary(Type=pikepdf.Name.StructElem, S=pikepdf.Name.Form, P=document, Pg=page, K=reference)
    told = pdf.make_indirect(element)
    kids = document.K
    document.K = pikepdf.Array([*(kids if isinstance(kids, pikepdf.Array) else [kids]), told])
    pikepdf.NumberTree(tree.ParentTree)[key] = told
    tree.ParentTreeNextKey = key + 1
    field.StructParent = key


def _next_key(tree: pikepdf.Object) -> int:
    known = max(pikepdf.NumberTree(tree.ParentTree).keys(), default=-1)
    return max(known + 1, int(tree.get("/ParentTreeNextKey", 0)))
