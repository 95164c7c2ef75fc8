"""The empty field keeps its place in page, form and structure tree; what could not be sealed is refused."""

from io import BytesIO

import pikepdf
import pytest
from judges.specimen import sound
from records.sealed import sealed

from tracksworn.documents.render.panel import show_panel
from tracksworn.records.sealing.field import PRINTED_AND_LOCKED, Field, put_in
from tracksworn.records.sealing.signer import UnusableFile


def opened(content: bytes) -> pikepdf.Pdf:
    return pikepdf.open(BytesIO(content))


def changed(key: str) -> bytes:
    """The specimen without something of its root."""
    out = BytesIO()
    with opened(sound()) as pdf:
        del pdf.Root[key]
        pdf.save(out)
    return out.getvalue()


def test_a_field_is_printed_has_no_area_and_is_told_aloud() -> None:
    with opened(put_in(sound(), [Field.SEAL])) as pdf:
        (field,) = pdf.Root.AcroForm.Fields
        assert field.F == PRINTED_AND_LOCKED
        assert [int(each) for each in field.Rect] == [0, 0, 0, 0]
        assert str(field.TU) == "Seal: electronic signature over the whole file"
        assert field.P.objgen == pdf.pages[-1].obj.objgen
        assert [each.objgen for each in pdf.pages[-1].Annots][-1] == field.objgen


def shown(*area: float) -> bytes:
    """The specimen with a panel there."""
    out = BytesIO()
    with opened(sound()) as pdf:
        pdf.Root.Names.Dests = pdf.make_indirect(pikepdf.NameTree.new(pdf).obj)
        show_panel(pdf, (0, area))
        pdf.save(out)
    return out.getvalue()


def test_the_seals_field_lies_over_the_panel_and_draws_nothing() -> None:
    with opened(put_in(shown(40, 90, 170, 230), list(Field))) as pdf:
        seal, *others = pdf.Root.AcroForm.Fields
        assert [int(each) for each in seal.Rect] == [40, 90, 170, 230]
        assert seal.AP.N.read_bytes() == b""
        assert [int(each) for each in seal.AP.N.BBox] == [0, 0, 130, 140]
        assert all([int(each) for each in other.Rect] == [0, 0, 0, 0] for other in others)
        assert not any("/AP" in other for other in others)


def test_every_field_is_a_form_in_the_structure_tree_and_found_from_its_own_number() -> None:
    with opened(put_in(sound(), list(Field))) as pdf:
        tree = pdf.Root.StructTreeRoot
        fields = list(pdf.Root.AcroForm.Fields)
        assert [str(each.T) for each in fields] == [each.value for each in Field]
        numbers = pikepdf.NumberTree(tree.ParentTree)
        told = [numbers[int(each.StructParent)] for each in fields]
        assert all(
            each.S == "/Form" and each.K.Obj.objgen == field.objgen for each, field in zip(told, fields, strict=True)
        )
        assert [each.objgen for each in tree.K[0].K][-len(fields) :] == [each.objgen for each in told]
        assert int(tree.ParentTreeNextKey) == max(numbers.keys()) + 1


def test_it_is_told_in_the_language_of_the_document() -> None:
    out = BytesIO()
    with opened(sound()) as pdf:
        pdf.Root.Lang = pikepdf.String("de-AT")
        pdf.save(out)
    with opened(put_in(out.getvalue(), [Field.SEAL])) as pdf:
        assert str(pdf.Root.AcroForm.Fields[0].TU) == "Siegel: elektronische Signatur über die ganze Datei"


def test_the_same_bytes_each_time() -> None:
    assert put_in(sound(), [Field.SEAL]) == put_in(sound(), [Field.SEAL])


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (lambda: b"no PDF at all", "only a PDF can be sealed"),
        (lambda: changed("/StructTreeRoot"), "no structure tree"),
        (lambda: put_in(sound(), [Field.SEAL]), "a form or a signature already"),
        (sealed, "a form or a signature already"),
    ],
)
def test_what_cannot_be_sealed_is_refused(content: object, said: str) -> None:
    assert callable(content)
    with pytest.raises(UnusableFile, match=said):
        put_in(content(), [Field.SEAL])
