"""A letterhead's fonts: what is refused and why; and warnings of characters that no font holds, at their place."""

from pathlib import Path

import pytest
from tiny_font import postscript_font, tiny_font

from tracksworn.inspection.fonts import LARGEST_FONT, FontRefused, read_font
from tracksworn.inspection.lettering import built_in, stand_in, unprinted
from tracksworn.inspection.reading import check, read_inspection

GOOD = tiny_font("日本")
POSTSCRIPT = postscript_font("日本")
LEAST = (
    "tracksworn: inspection 1\nnumber: A\ninspected: 2031-04-18\ninspector: {{name: {name}}}\n"
    "machine: {{maker: Hollin, model: H, serial: S, layout: oval}}\nchart: none (none made)\n"
    "readings: {{link: {{left: by eye about 40 %}}}}\n{more}"
)
ADVICE = "; a font that holds it can stand under `fonts` in the letterhead"


def told(file: Path) -> list[str]:
    return [str(fault).rpartition("/")[2] for fault in check(file)]


def inspection(folder: Path, name: str = "Ines Marlow", more: str = "") -> Path:
    file = folder / "A" / "inspection.yaml"
    file.parent.mkdir(exist_ok=True)
    file.write_text(LEAST.format(name=name, more=more), encoding="utf-8")
    return file


def letterhead(folder: Path, *fonts: tuple[str, bytes]) -> str:
    for name, content in fonts:
        (folder / name).write_bytes(content)
    listed = ", ".join(name for name, _ in fonts)
    text = f"tracksworn: letterhead 1\nfirm: Oxbow\nsignatory: {{name: Ines}}\nfonts: [{listed}]\n"
    (folder / "own.yaml").write_text(text, encoding="utf-8")
    return "letterhead: ../own.yaml\n"


def test_a_font_says_which_characters_it_has_an_outline_for() -> None:
    font = read_font("own.ttf", GOOD)
    assert font.characters == {ord("日"), ord("本")}
    assert font.name == "own.ttf"


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "it is no TrueType or OpenType font"),
        (b"hello", "it is no TrueType or OpenType font"),
        (b"ttcf" + GOOD[4:], "it is a collection of fonts; name one font taken out of it"),
        (b"wOF2", "it is a web font (WOFF2), and the TrueType or OpenType file that it was made from is wanted"),
        (GOOD[:40], "it is damaged and cannot be read"),
        (GOOD[:-600], "it is damaged and cannot be read"),
        (GOOD.replace(b"glyf", b"gone", 1), "it is no whole font: it has no table of outlines, `glyf` or `CFF`"),
        (GOOD.replace(b"cmap", b"cmup", 1), "it is no whole font: the table `cmap` is missing"),
        (tiny_font("日", embedding=2), "its maker does not allow it to be embedded in documents"),
        (tiny_font("日", embedding=0x0102), "its maker does not allow it to be embedded in documents"),
        (
            tiny_font("日", embedding=0x0104),
            "its maker does not allow a part of it to be embedded, and documents carry no whole fonts",
        ),
        (tiny_font("日", embedding=0x0200), "its maker does not allow its outlines to be embedded in documents"),
        (POSTSCRIPT[:-20], "it is damaged: its end is cut off"),
        (postscript_font(""), "it has no outline for any character"),
        (tiny_font(""), "it has no outline for any character"),
    ],
    ids=lambda value: value[:20] if isinstance(value, str) else len(value),
)
def test_what_is_no_font_that_can_be_used_is_refused(content: bytes, why: str) -> None:
    with pytest.raises(FontRefused) as refused:
        read_font("own.ttf", content)
    assert str(refused.value) == why


def test_a_font_that_is_too_large_is_refused() -> None:
    with pytest.raises(FontRefused, match="larger than 40 MB"):
        read_font("own.ttf", GOOD + bytes(LARGEST_FONT))


@pytest.mark.parametrize("content", [POSTSCRIPT, postscript_font("日本", variable=True)], ids=["plain", "variable"])
def test_a_font_with_postscript_outlines_is_as_good(content: bytes) -> None:
    assert read_font("own.otf", content).characters == {ord("日"), ord("本")}


@pytest.mark.parametrize("embedding", [0x0000, 0x0004, 0x0006, 0x0008, 0x000E])
def test_printing_or_editing_is_licence_enough_and_of_several_the_widest_holds(embedding: int) -> None:
    """OS/2 fsType (ISO/IEC 14496-22): 2 restricted, 4 for print, 8 for editing; old fonts set several."""
    assert read_font("own.ttf", tiny_font("日", embedding=embedding)).characters == {ord("日")}


@pytest.mark.parametrize("whole", [GOOD, POSTSCRIPT], ids=["truetype", "postscript"])
@pytest.mark.parametrize("share", range(2, 100, 7))
def test_no_cut_font_escapes_as_another_error(whole: bytes, share: int) -> None:
    try:
        font = read_font("own.ttf", whole[: len(whole) * share // 100])
    except FontRefused:
        return
    assert font.characters


def test_a_font_that_cannot_be_used_is_a_fault_where_it_is_named(tmp_path: Path) -> None:
    letterhead(tmp_path, ("good.ttf", GOOD), ("bad.ttf", b"hello"))
    assert told(tmp_path / "own.yaml") == [
        "own.yaml:4:19: the font `bad.ttf` cannot be used: it is no TrueType or OpenType font"
    ]


def test_a_character_that_no_font_holds_is_a_warning_at_its_column(tmp_path: Path) -> None:
    file = inspection(tmp_path, name="Ines 日 Marlow")
    assert told(file) == [f"inspection.yaml:4:24: warning: no font holds `日`, which prints as `� U+65E5`{ADVICE}"]
    assert len(read_inspection(file).warnings) == 1


def test_one_warning_a_text_counts_the_others(tmp_path: Path) -> None:
    file = inspection(tmp_path, more="notes: |\n  Dry.\n\n  Two 🚜🚜 and 日本 and 日.\nplace: 日日\n")
    assert [line.partition(", which")[0] for line in told(file)] == [
        "inspection.yaml:11:7: warning: no font holds `🚜` (and 2 others in this text)",
        "inspection.yaml:12:8: warning: no font holds `日`",
    ]


def test_a_key_is_looked_at_and_a_comment_is_not(tmp_path: Path) -> None:
    file = inspection(tmp_path, more="instruments:\n  日 gauge: {resolution: 1 mm}   # 本\n")
    assert [line.partition(", which")[0] for line in told(file)] == ["inspection.yaml:9:3: warning: no font holds `日`"]


def test_a_letterheads_font_holds_what_the_program_lacks(tmp_path: Path) -> None:
    file = inspection(tmp_path, name="日 本 🚜", more=letterhead(tmp_path, ("own.ttf", GOOD)))
    assert [line.partition(", which")[0] for line in told(file)] == [
        "inspection.yaml:4:23: warning: no font holds `🚜`"
    ]
    (font,) = read_inspection(file).fonts
    assert font.characters == {ord("日"), ord("本")}


def test_five_scripts_need_no_font_of_the_firms(tmp_path: Path) -> None:
    names = "Ines Ørsted, Μαρία Ωραίου, Ђорђе Щукин, אורי שׁ, محمد ١٢، پگاه"
    assert told(inspection(tmp_path, name=f'"{names}"')) == []


def test_signs_without_ink_and_blanks_are_no_missing_characters() -> None:
    assert unprinted("a\n\tb\u00ad\u200c\u200d\ufe0f\u2068") == ()
    assert unprinted("日a日", [frozenset([ord("本")])]) == ("日",)
    assert unprinted("日", [frozenset([ord("日")])]) == ()
    assert stand_in("🚜") == "� U+1F69C"
    assert ord("\ufffd") in built_in()
