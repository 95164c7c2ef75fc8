"""Marks in SVG: each trick that could run, move, fetch or unfold is refused; what is left is written canonically."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from tracksworn.inspection.dossier import PictureRefused
from tracksworn.inspection.pictures import read_mark
from tracksworn.inspection.vector_marks import DEEPEST

SVG = 'xmlns="http://www.w3.org/2000/svg"'
XLINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'
LETTERHEADS = Path(__file__).parents[2] / "demo_inspections" / "letterheads"


def mark(inner: str, attributes: str = "") -> bytes:
    return f'<svg {SVG} {XLINK} viewBox="0 0 48 48" {attributes}>{inner}</svg>'.encode()


@pytest.mark.parametrize("name", ["millrace.svg", "oxbow.svg"])
def test_the_demo_firms_marks_are_taken(name: str) -> None:
    taken = read_mark(name, (LETTERHEADS / name).read_bytes())
    assert (taken.width, taken.height, taken.media_type) == (48, 48, "image/svg+xml")
    assert read_mark(name, taken.content).content == taken.content, "written anew it stays as it is"


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (mark("<script>alert(1)</script>"), "script"),
        (mark("<SCRIPT/>"), "script"),
        (mark('<script href="#a"/>'), "script"),
        (mark('<h:script xmlns:h="http://www.w3.org/1999/xhtml"/>'), "script"),
        (mark('<x:g xmlns:x="urn:x"><x:g><x:script/></x:g></x:g>'), "script"),
        (mark("<handler/>"), "script"),
        (mark('<rect onload="x()"/>'), "handler"),
        (mark('<rect ONCLICK="x()"/>'), "handler"),
        (mark("", 'onload="x()"'), "handler"),
        (mark("<foreignObject/>"), "foreign content"),
        (mark("<g><foreignobject/></g>"), "foreign content"),
        (mark('<h:iframe xmlns:h="http://www.w3.org/1999/xhtml"/>'), "foreign content"),
        (mark("<animate/>"), "animation"),
        (mark('<rect><set attributeName="href" to="javascript:x()"/></rect>'), "animation"),
        (mark("<animateTransform/>"), "animation"),
        (mark("<animateMotion/>"), "animation"),
        (b"<!DOCTYPE svg>" + mark(""), "document type"),
        (b'<!DOCTYPE svg [<!ENTITY a "b">]>' + mark("<text>&a;</text>"), "document type"),
        (b'<!DOCTYPE svg SYSTEM "http://a.example/x.dtd">' + mark(""), "document type"),
        (b'<?xml-stylesheet href="http://a.example/x.css"?>' + mark(""), "processing instruction, xml-stylesheet"),
        (mark("<style>@import 'http://a.example/x.css';</style>"), "@import"),
        (mark("<style>@IMPORT url(#a);</style>"), "@IMPORT"),
        (mark("<style>rect { fill: url(http://a.example/x) }</style>"), "refers to 'http://a.example/x'"),
        (mark("<style>rect { fill: URL( 'http://a.example/x' ) }</style>"), "refers to"),
        (mark("<style>@font-face { src: url(data:font/ttf;base64,AA) }</style>"), "refers to"),
        (mark(r"<style>rect { fill: u\72l(http://a.example/x) }</style>"), "backslash"),
        (mark("<style>rect { fill: image-set('a.png' 1x) }</style>"), "image-set"),
        (mark('<rect style="fill: url(//a.example/x)"/>'), "refers to"),
        (mark('<rect fill="url(http://a.example/x#g)"/>'), "refers to"),
        (mark(r'<rect fill="u\72l(http://a.example/x)"/>'), "backslash"),
        (mark('<rect filter="url(x.svg#f)"/>'), "refers to 'x.svg#f'"),
        (mark('<use href="http://a.example/x.svg#a"/>'), "refers to"),
        (mark('<use xlink:href="x.svg#a"/>'), "refers to"),
        (mark('<image href="file:///etc/hostname"/>'), "refers to 'file:///etc/hostname'"),
        (mark('<image xlink:href="data:image/png;base64,AA"/>'), "refers to"),
        (mark('<image href=""/>'), "refers to ''"),
        (mark('<a href="javascript:x()"><rect/></a>'), "refers to 'javascript:x"),
        (mark('<linearGradient id="g" href="other.svg#g"/>'), "refers to"),
        (mark('<g id="a"><use href="#a"/></g>'), "lead in a circle"),
        (mark('<g id="a"><use href="#b"/></g><g id="b"><use xlink:href="#a"/></g>'), "lead in a circle"),
        (mark('<pattern id="p"><rect fill="url(#p)"/></pattern>'), "lead in a circle"),
        (mark("<g>" * DEEPEST + "</g>" * DEEPEST), f"more than {DEEPEST} deep"),
        (
            mark("".join(f'<g id="a{n}"><use href="#a{n + 1}"/></g>' for n in range(2000)) + '<g id="a2000"/>'),
            "references more than",
        ),
        (
            mark(
                '<g id="a0"><rect/></g>'
                + "".join(f'<g id="a{n}">{f"""<use href="#a{n - 1}"/>""" * 9}</g>' for n in range(1, 30))
            ),
            "draws more than 20000 elements",
        ),
        (mark("<rect/>" * 20_001), "draws more than 20000 elements"),
        (b" " * 1_000_001, "no PNG, JPEG or SVG"),
        (mark(" " * 1_000_001), "larger than 1 MB"),
        (mark("<g>"), "no well-formed XML"),
        (b"<", "no well-formed XML"),
        (b"<svg/>", "namespace"),
        (b"<html xmlns='http://www.w3.org/1999/xhtml'/>", "does not begin with an svg element"),
        (mark("&undefined;"), "no well-formed XML"),
        (b'<?xml version="1.0" encoding="no-such"?>' + mark(""), "no well-formed XML"),
        (f"<svg {SVG}/>".encode(), "has no size"),
        (f'<svg {SVG} viewBox="0 0 0 9"/>'.encode(), "has no size"),
        (f'<svg {SVG} width="100%" height="100%"/>'.encode(), "has no size"),
        (f'<svg {SVG} viewBox="0 0 nan inf"/>'.encode(), "has no size"),
        (f'<?xml version="1.0" encoding="UTF-16"?><svg {SVG}><script/></svg>'.encode("utf-16"), "script"),
    ],
)
def test_what_could_run_move_fetch_or_unfold_is_refused(content: bytes, why: str) -> None:
    with pytest.raises(PictureRefused) as refusal:
        read_mark("mark.svg", content)
    assert why in str(refusal.value)


def test_the_message_quotes_at_most_80_characters() -> None:
    with pytest.raises(PictureRefused) as refusal:
        read_mark("mark.svg", mark(f'<image href="http://a.example/{"x" * 500}"/>'))
    assert len(str(refusal.value)) < 200


def test_references_within_the_mark_are_kept() -> None:
    inner = (
        '<defs><linearGradient id="g"><stop stop-color="#123456"/></linearGradient><g id="a"><rect/></g></defs>'
        '<use xlink:href="#a"/><use href="#a"/><rect fill="url(#g)" style="stroke:url( \'#g\' )"/>'
        "<style>.b { fill: url(#g) }</style>"
    )
    taken = read_mark("mark.svg", mark(inner)).content.decode()
    assert taken.count('href="#a"') == 2
    assert "xlink" not in taken
    assert 'fill="url(#g)"' in taken


def test_what_is_not_svg_is_left_out() -> None:
    inner = (
        '<i:namedview xmlns:i="urn:editor" i:path="C:\\home\\me"><i:grid/></i:namedview><!-- by me --><rect/>'
        '<metadata>about</metadata><path xmlns:i="urn:editor" i:label="x" d="M0 0"/>'
    )
    taken = read_mark("mark.svg", mark(inner, 'xml:base="http://a.example/"')).content.decode()
    for gone in ("editor", "home", "by me", "a.example", "i:"):
        assert gone not in taken
    assert '<path d="M0 0"/>' in taken


def test_the_same_shapes_give_the_same_bytes_however_they_are_written() -> None:
    plain = read_mark("a", f'<svg {SVG} viewBox="0 0 4 4"><rect width="2" height="1"/></svg>'.encode())
    other = "<?xml version='1.0' encoding='UTF-16'?><s:svg xmlns:s='http://www.w3.org/2000/svg' viewBox='0 0 4 4'>"
    other += "<s:rect height='1'  width='2'></s:rect></s:svg>"
    assert read_mark("b", other.encode("utf-16")) == plain


def test_what_other_code_told_the_xml_library_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    content = mark("<g xml:space='preserve'><rect/> &lt;&amp; <text>a&#13;b</text></g>", "class='&quot;&#10;'")
    before = read_mark("mark.svg", content).content
    monkeypatch.setitem(vars(ET)["_namespace_map"], "http://www.w3.org/2000/svg", "")
    assert read_mark("mark.svg", content).content == before
    again = ET.fromstring(before)
    assert again.tag == "{http://www.w3.org/2000/svg}svg"
    assert again.get("class") == '"\n'
    assert "".join(again.itertext()) == " <& a\rb"


@pytest.mark.parametrize(
    ("attributes", "size"),
    [
        ('viewBox="0 0 30 20"', (30, 20)),
        ('viewBox="-5,-5, 30,20"', (30, 20)),
        ('width="1in" height="25.4mm"', (96, 96)),
        ('width="2cm" height="10pt" viewBox="0 0 1 1"', (76, 13)),
        ('width="50%" height="50%" viewBox="0 0 30 20"', (30, 20)),
        ('viewBox="0 0 0.2 0.1"', (1, 1)),
    ],
)
def test_a_mark_has_the_size_it_says(attributes: str, size: tuple[int, int]) -> None:
    taken = read_mark("mark.svg", f"<svg {SVG} {attributes}/>".encode())
    assert (taken.width, taken.height) == size
    assert b"viewBox=" in taken.content
