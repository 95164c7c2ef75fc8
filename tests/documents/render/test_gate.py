"""The gate: a document is refused wherever one of its cautions could not be read."""

from collections.abc import Callable
from dataclasses import replace
from html import escape
from io import BytesIO

import pytest
from PIL import Image

from tracksworn.assessment.decisions import Result
from tracksworn.documents.full.terms_view import TermsView, TermsWords
from tracksworn.documents.render.engine import Part, lay_out
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.brought import Styles, no_style_on_sheets
from tracksworn.documents.render.gate.marked import check_markdown
from tracksworn.documents.render.gate.own_style import check_style
from tracksworn.documents.render.gate.printed import check_pdf
from tracksworn.documents.render.gate.shown import check_html
from tracksworn.documents.render.gate.values import foreign_family
from tracksworn.documents.render.gate.verdict import wanted_of_terms
from tracksworn.documents.render.gate.wanted import wanted
from tracksworn.documents.words.cautions import CAUTIONS

PIECES = wanted(CAUTIONS)
STYLE = "html { font: 9pt Barlow; color: #1b2329 } p { margin: 1mm 0 } @page { size: A4; margin: 14mm }"
PLAIN = "".join(f"<p><b>{escape(c.title)}.</b> {escape(c.text)} {escape(c.references)}</p>" for c in CAUTIONS)


def html(body: str = f'<section class="cautions">{PLAIN}</section>', style: str = STYLE) -> str:
    head = f"<head><title>t</title><style>{style}</style></head>"
    return f'<!DOCTYPE html><html lang="en">{head}<body>{body}</body></html>'


def pdf(body: str = f'<section class="cautions">{PLAIN}</section>', style: str = "") -> bytes:
    page = f'<html lang="en"><head><title>t</title></head><body><h1>t</h1>{body}</body></html>'
    return lay_out(page, [STYLE, style], {"part:white": Part(white(), "image/png")}).write()


def white() -> bytes:
    out = BytesIO()
    Image.new("RGB", (4, 4), "white").save(out, "PNG")
    return out.getvalue()


def markdown(body: str | None = None) -> str:
    return body or "\n\n".join(f"**{c.title}.** {c.text} {c.references}" for c in CAUTIONS)


def test_documents_with_all_cautions_pass() -> None:
    check_html(html(), PIECES)
    check_pdf(pdf(), PIECES)
    check_markdown(markdown(), PIECES)


@pytest.mark.parametrize("lost", range(len(CAUTIONS)))
def test_a_view_that_lost_a_caution_is_refused(lost: int) -> None:
    with pytest.raises(Refused, match=CAUTIONS[lost].identity):
        wanted(one for index, one in enumerate(CAUTIONS) if index != lost)


@pytest.mark.parametrize("field", ["title", "text", "references"])
def test_a_view_with_an_emptied_caution_is_refused(field: str) -> None:
    emptied = (replace(CAUTIONS[0], **{field: " \u00ad"}), *CAUTIONS[1:])
    with pytest.raises(Refused, match="grease"):
        wanted(emptied)


def test_no_cautions_at_all() -> None:
    for check, document in ((check_html, html("<p>Nothing</p>")), (check_markdown, "Nothing")):
        with pytest.raises(Refused, match="grease"):
            check(document, PIECES)
    with pytest.raises(Refused, match="grease"):
        check_pdf(pdf("<p>Nothing</p>"), PIECES)


def test_one_word_changed() -> None:
    changed = PLAIN.replace("surgical emergency", "small matter")
    with pytest.raises(Refused, match="grease"):
        check_html(html(changed), PIECES)
    with pytest.raises(Refused, match="grease"):
        check_pdf(pdf(changed), PIECES)
    with pytest.raises(Refused, match="grease"):
        check_markdown(markdown().replace("surgical emergency", "small matter"), PIECES)


HIDING = (
    ".cautions { display: none }",
    ".cautions { display: none !important }",
    ".cautions p { visibility: hidden }",
    ".cautions { opacity: 0 }",
    ".cautions { opacity: 0.05 }",
    ".cautions { color: #ffffff }",
    ".cautions { color: white }",
    ".cautions { color: #dddddd }",
    ".cautions { color: transparent }",
    ".cautions { color: rgb(0 0 0 / 2%) }",
    ".cautions { color: #000; background: #111111 }",
    ".cautions { font-size: 1px }",
    ".cautions { font-size: 2pt }",
    ".cautions { font-size: 0.1em }",
    ".cautions { font: 3px Barlow }",
    ".cautions { height: 0; overflow: hidden }",
    ".cautions { max-height: 2px; overflow: hidden }",
    ".cautions { position: absolute; left: -9999px }",
    ".cautions { text-indent: -9999px; white-space: nowrap; overflow: hidden }",
    ".cautions { margin-left: -300mm }",
    ".cautions { transform: scale(0.01) }",
    ".cautions { transform: translateX(500mm) }",
    ".cautions { clip-path: inset(100%) }",
    ".cautions { line-height: 0 }",
    "body { visibility: hidden }",
    "html body > section:last-child { display: none }",
    "@media screen { .cautions { display: none } }",
    "@media print { .cautions { display: none } }",
    "@supports (display: grid) { .cautions { display: none } }",
    ".cautions { content-visibility: hidden }",
    ".cautions { width: 0; overflow: hidden }",
    ".cautions { letter-spacing: -1em }",
    ".cautions { -webkit-text-fill-color: transparent }",
    ".cautions { filter: opacity(0) }",
    ".cautions { mask-image: linear-gradient(transparent, transparent) }",
    ".cautions { zoom: 0.1 }",
    "h1 { position: fixed; inset: 0; background: #ffffff }",
    "h1 { margin-top: 0; transform: scale(50) }",
    "p::after { content: 'x'; position: absolute; background: #ffffff }",
    ".cautions { & p { display: none } }",
    "@import url(hide.css);",
    '@font-face { font-family: "Barlow"; src: url(data:font/woff2;base64,AAAA) }',
    '@font-face { font-family: "Blank"; src: url(https://evil.example/blank.woff2) }',
    ".cautions { background: url(data:image/png;base64,AAAA) }",
    ".cautions { unicode-bidi: bidi-override; direction: rtl }",
    ".cautions:hover { display: none }",
    "html:hover .cautions { display: none }",
    ".cautions:not(:hover) { display: none }",
    ":focus-within .cautions { display: none }",
    "h1 { -webkit-transform: scale(99) }",
    "h1 { position: relative; top: 90px; background: #ffffff }",
    "h1 { inset: 0 }",
    "h1 { box-shadow: 0 0 0 999px #ffffff }",
    "h1 { opacity: 0.99 }",
    "h1 { border-image: linear-gradient(#fff, #fff) 1 / 0 / 999px }",
    ".cautions { font-size: calc(9pt - 9pt) }",
    ".cautions { font-size: min(9pt, 0px) }",
    ".cautions { font: 9pt/0 Barlow }",
    ".cautions { font-family: Wingdings }",
    ".cautions { font: 9pt Webdings }",
    ".cautions { font-size-adjust: 0 }",
    "html { font-size: 10px } body, .cautions, .cautions p { font-size: 0.8em }",
    ".cautions { --accent: #ffffff; color: var(--accent) }",
    ".cautions { color: var(--accent-none, #ffffff) }",
    ".cautions { text-decoration: line-through 9px #ffffff }",
    ".cautions { vertical-align: -9999px }",
    ".cautions { column-count: 60 }",
    ".cautions { width: 1px }",
    ".cautions { max-width: 0.1px }",
    ".cautions { padding-left: 99999px }",
    ".cautions { margin-left: 9999px }",
    ".cautions { justify-content: flex-end }",
    ".cautions { grid-area: 1 / 1 }",
    ":root { color-scheme: dark }",
    "@page { size: 1px 1px }",
    "@page { margin-left: 2000mm }",
    "@container (width > 0px) { .cautions { display: none } }",
    "@keyframes gone { to { opacity: 0 } }",
    ".cautions { d\\69splay: none }",
    "p:has(b) { display: none }",
)


@pytest.mark.parametrize("style", HIDING)
def test_html_whose_style_could_hide_a_caution_is_refused(style: str) -> None:
    with pytest.raises(Refused, match="not handed over"):
        check_html(html(style=STYLE + style), PIECES)


@pytest.mark.parametrize(
    "style",
    [
        ".cautions { color: #0d3b66; font-size: 11pt; padding: 2mm; border-left: 1mm solid #0d3b66 }",
        ".cautions { background: #fff8e1 }",
        "h1 { display: none }",
        "@media print { .cautions { break-inside: avoid } }",
    ],
)
def test_html_may_be_styled_in_ways_that_hide_nothing(style: str) -> None:
    check_html(html(style=STYLE + style), PIECES)


WRAPPED: tuple[tuple[str, Callable[[str], str]], ...] = (
    ("hidden", lambda inner: f"<div hidden>{inner}</div>"),
    ("style", lambda inner: f'<div style="display:none">{inner}</div>'),
    ("details", lambda inner: f"<details><summary>Legal</summary>{inner}</details>"),
    ("template", lambda inner: f"<template>{inner}</template>"),
    ("noscript", lambda inner: f"<noscript>{inner}</noscript>"),
    ("comment", lambda inner: f"<!-- {inner} -->"),
    ("textarea", lambda inner: f"<textarea>{inner}</textarea>"),
    ("dialog", lambda inner: f"<dialog>{inner}</dialog>"),
    ("script", lambda inner: f"<script>{inner}</script>"),
    ("iframe", lambda inner: f"<iframe srcdoc='x'></iframe>{inner}"),
    ("handler", lambda inner: f"<div onclick='this.remove()'>{inner}</div>"),
    ("inert", lambda inner: f"<div inert>{inner}</div>"),
    ("svg", lambda inner: f"<svg><title>{inner}</title></svg>"),
    ("select", lambda inner: f"<select><option>{inner}</option></select>"),
    ("fetched", lambda inner: f'<img src="https://evil.example/x.png" alt="x">{inner}'),
    ("javascript", lambda inner: f'<a href="javascript:x">x</a>{inner}'),
    ("form", lambda inner: f'<form action="https://evil.example">{inner}</form>'),
    ("shadow", lambda inner: f'<div><template shadowrootmode="open"></template>{inner}</div>'),
    ("dialog beside", lambda inner: f"<dialog open>x</dialog>{inner}"),
    ("popover", lambda inner: f"<div popover>x</div>{inner}"),
    ("marquee", lambda inner: f"<marquee>{inner}</marquee>"),
    ("overflowing", lambda inner: f'<svg overflow="visible"><rect width="9999" height="9999"/></svg>{inner}'),
    ("animated", lambda inner: f"<svg><animate/></svg>{inner}"),
    ("formula", lambda inner: f'<math><mpadded lspace="-999px">x</mpadded></math>{inner}'),
    ("struck", lambda inner: f"<s>{inner}</s>"),
    ("removed", lambda inner: f"<del>{inner}</del>"),
    ("coloured", lambda inner: f'<font color="white">{inner}</font>'),
    ("dark", lambda inner: f'<meta name="color-scheme" content="dark"/>{inner}'),
    ("shrunk", lambda inner: f'<meta name="viewport" content="width=99999"/>{inner}'),
    ("refreshed", lambda inner: f'<meta http-equiv="refresh" content="0"/>{inner}'),
    ("turned", lambda inner: f"<div>&#x202e;{inner}</div>"),
    ("bdo", lambda inner: f'<bdo dir="rtl">{inner}</bdo>'),
    ("ruby", lambda inner: f"<ruby>x<rt>{inner}</rt></ruby>"),
    ("one word", lambda inner: inner.replace("never", '<span style="color:#fff">never</span>')),
)


BROUGHT = (
    "<style>p { margin-top: -90px }</style>",
    "<style>h1 { display: inline-block; margin-bottom: -900px; background: #fff }</style>",
    '<p style="margin-top: -90px">x</p>',
    '<p style="height: 0">x</p>',
    '<p style="display: flex; align-items: flex-end; height: 0">x</p>',
    '<p style="outline: 999px solid #fff">x</p>',
    '<p style="background: linear-gradient(#fff, #fff)">x</p>',
)


@pytest.mark.parametrize("brought", BROUGHT)
def test_no_template_brings_a_style_that_was_not_judged(brought: str) -> None:
    styles = Styles(STYLE)
    check_html(html(style=styles.text), PIECES, styles=styles)
    with pytest.raises(Refused, match="style"):
        check_html(html(f'{brought}<section class="cautions">{PLAIN}</section>', styles.text), PIECES, styles=styles)


def test_no_template_brings_a_style_to_sheets() -> None:
    no_style_on_sheets("<p>style</p>")
    with pytest.raises(Refused, match="a template brings a style sheet"):
        no_style_on_sheets("<p>x</p><STYLE>p { color: red }</STYLE>")


JUDGED = {
    "when the folder is read": (
        "font-size: 6.9pt",
        "font-size: 0.7em",
        "line-height: 2.5",
        "font-family: Wingdings",
        "font: 9pt/2.5 Barlow",
        "letter-spacing: 0.3em",
        "display: contents",
    ),
    "by its line": (
        "text-transform: uppercase",
        "display: none",
        "width: 30px",
        "max-width: 30px",
        "color: #bbbbbb",
        "background: #333333",
        "text-underline-offset: 2px",
        "content: counter(x)",
    ),
    "never": (
        "letter-spacing: 0.05em",
        "line-height: 1.9",
        "vertical-align: top",
        "white-space: pre-line",
        "columns: 2",
        "text-transform: none",
        'font: 600 11pt/1.3 "Barlow"',
    ),
}


@pytest.mark.parametrize(("refused", "said"), [(when, one) for when, said in JUDGED.items() for one in said])
def test_a_firms_own_style_of_cautions_is_refused_as_early_as_can_be(refused: str, said: str) -> None:
    """One table for both: what no document could have is told as the folder is read, all else by file and line."""
    own = f"/* ours */\n.cautions {{\n  {said} }}\n"
    styles = Styles(STYLE, (("extra.css", own), ("screen.css", "p { color: #000 }\n\n")))
    told = [(line, column) for line, column, _ in check_style(own, sheets=False)]
    assert told == ([(3, 3)] if refused == "when the folder is read" else [])
    if refused == "by its line":
        with pytest.raises(Refused, match=r" \(extra\.css, line 3\)\Z"):
            check_html(html(style=styles.text), PIECES, styles=styles)
    elif refused == "never":
        check_html(html(style=styles.text), PIECES, styles=styles)


def test_the_last_line_of_a_firms_own_is_told_and_ours_is_not() -> None:
    styles = Styles("p { color: #000 }\n", (("extra.css", "a {\n}"), ("screen.css", "b { }")))
    sheet = f"/* fonts\n*/{styles.text}"
    said = [styles.place(line, sheet) for line in range(1, sheet.count("\n") + 2)]
    assert said == ["", "", "", "extra.css, line 1", "extra.css, line 2", "screen.css, line 1", ""]


@pytest.mark.parametrize("families", [", Wingdings", '"Barlow", Wingdings', "serif, Barlowe"])
def test_a_family_that_is_not_ours_is_found_wherever_it_stands(families: str) -> None:
    assert foreign_family(families)


def test_a_piece_may_stand_again_where_it_cannot_be_read() -> None:
    check_html(html(f'<div hidden="hidden">{PLAIN}</div><section class="cautions">{PLAIN}</section>'), PIECES)
    check_pdf(pdf(f'<div style="color: #fff">{PLAIN}</div><section class="cautions">{PLAIN}</section>'), PIECES)


@pytest.mark.parametrize(("name", "wrap"), WRAPPED, ids=[name for name, _ in WRAPPED])
def test_html_that_puts_cautions_where_they_are_not_shown_or_that_runs_is_refused(
    name: str, wrap: Callable[[str], str]
) -> None:
    with pytest.raises(Refused):
        check_html(html(wrap(PLAIN)), PIECES)


PRINTED = (
    ".cautions { display: none }",
    ".cautions { visibility: hidden }",
    ".cautions { color: #ffffff }",
    ".cautions { color: #f4f4f4 }",
    ".cautions { opacity: 0.03 }",
    ".cautions { font-size: 1pt }",
    ".cautions { font-size: 5pt }",
    ".cautions { height: 1mm; overflow: hidden }",
    ".cautions { position: absolute; left: -400mm; width: 180mm }",
    ".cautions { transform: scale(0.2) }",
    ".cautions { background: #1b2329 }",
    "h1 { position: absolute; top: 0; left: 0; width: 190mm; height: 250mm; background: #ffffff }",
    "body::after { content: ''; position: absolute; top: 0; left: 0; width: 190mm; height: 250mm; background: #fff }",
    "h1 { position: fixed; top: 0; left: 0; width: 190mm; height: 250mm; background: url(part:white) }",
    ".cautions { position: relative; left: 250mm }",
    "@page { size: A4; margin: 14mm 14mm 14mm 230mm }",
    ".cautions { letter-spacing: -1em }",
    ".cautions { line-height: 0 }",
    ".cautions { line-height: 0.3 }",
    ".cautions p { height: 1mm }",
    ".cautions { transform: scaleX(0.05) }",
    ".cautions { transform: scaleX(-1) }",
    ".cautions { transform: rotate(180deg) }",
    ".cautions { transform: rotate(90deg) }",
    ".cautions { text-decoration: line-through }",
    ".cautions { text-indent: -400mm }",
    ".cautions { margin-top: -400mm }",
    ".cautions { width: 2mm; white-space: nowrap; overflow: hidden }",
    ".cautions { color: #b0b0b0 }",
    ".cautions { background: #1b2329; color: #2b3339 }",
    ".cautions { text-transform: uppercase }",
    ".cautions { position: absolute; top: 400mm }",
    ".cautions p { white-space: nowrap }",
    ".cautions { column-count: 40 }",
    ".cautions b { color: #ffffff }",
)


def test_the_least_size_is_enough() -> None:
    check_pdf(pdf(style=".cautions { font-size: 7pt }"), PIECES)
    with pytest.raises(Refused, match="smaller than 7 points"):
        check_pdf(pdf(style=".cautions { font-size: 6.9pt }"), PIECES)


LAID_OVER = (
    lambda inner: inner.replace("never", '<span style="color:#fff">never</span>'),
    lambda inner: f'<div style="position:absolute">{inner}</div>{inner.replace("a", "x").replace("e", "m")}',
    lambda inner: (
        f'{inner}<div style="position:absolute;top:0;left:0;width:180mm;height:260mm;background:#fff">x</div>'
    ),
    lambda inner: (
        f'{inner}<img src="part:white" alt="x" style="position:absolute;top:0;left:0;width:190mm;height:260mm"/>'
    ),
)


@pytest.mark.parametrize("lay", LAID_OVER)
def test_a_pdf_whose_cautions_lie_under_something_is_refused(lay: Callable[[str], str]) -> None:
    with pytest.raises(Refused, match="its caution"):
        check_pdf(pdf(lay(PLAIN)), PIECES)


@pytest.mark.parametrize("style", PRINTED)
def test_a_pdf_whose_cautions_cannot_be_seen_is_refused(style: str) -> None:
    with pytest.raises(Refused, match="its caution"):
        check_pdf(pdf(style=style), PIECES)


@pytest.mark.parametrize(
    "style", ["", ".cautions { color: #5c676e; font-size: 7.5pt }", ".cautions { background: #eee }"]
)
def test_a_pdf_may_be_styled_in_ways_that_hide_nothing(style: str) -> None:
    check_pdf(pdf(style=style), PIECES)


@pytest.mark.parametrize(
    "page",
    [
        f"<!-- {markdown()} -->",
        f"<div hidden>\n\n{markdown()}\n\n</div>",
        f'[x]: https://a.example "{markdown()}"'.replace("\n", " "),
        f"![{markdown()}](x.svg)".replace("\n", " "),
        markdown().replace("Stored force", "<span hidden>Stored force</span>"),
        f"{markdown()}\n\n<script>document.body.remove()</script>",
    ],
    ids=["comment", "hidden", "definition", "picture", "span", "script"],
)
def test_markdown_that_hides_cautions_as_html_is_refused(page: str) -> None:
    with pytest.raises(Refused):
        check_markdown(page, PIECES)


@pytest.mark.parametrize(
    "page",
    [
        markdown().replace("**Stored force.**", "~~**Stored force.**~~"),
        f"~~{markdown()}~~",
        f"$$\n\\phantom{{ {markdown()} }}\n$$",
        f"$\\color{{white}}{markdown()}$",
        f"---\nnote: >\n  {markdown()}\n---\n\nText",
        f"+++\n{markdown()}\n+++",
        f"```mermaid\n{markdown()}\n```",
        f"~~~{{=html}}\n{markdown()}\n~~~",
        f"::: hidden\n\n{markdown()}\n\n:::",
        markdown().replace("**Stored force.**", "**Stored force.**{.hidden}"),
        f"%% {markdown()} %%",
        f"{{% comment %}}{markdown()}{{% endcomment %}}",
        f"{{{{ {markdown()} }}}}",
        f"\u202e{markdown()}",
        f"&#x202e;{markdown()}",
        f"[//]: # ({markdown()})".replace("\n", " "),
        f"[a]: b '{markdown()}'".replace("\n", " "),
        markdown().replace("never", "nev&shy;r"),
        markdown().replace("never", ""),
        markdown().replace("**Stored force.**", "[](Stored force)"),
    ],
)
def test_markdown_that_hides_cautions_is_refused(page: str) -> None:
    with pytest.raises(Refused):
        check_markdown(page, PIECES)


# --- a verdict --------------------------------------------------------------------------------------------------------

VERDICT = TermsView(
    TermsWords(),
    "Lantern Plan",
    Result.PASSES,
    "Passes",
    (),
    (),
    (),
    100.0,
    "",
    (),
    (),
    ("Guarded, at a risk of 2.5 %.", "Undecided leads to measuring again."),
    ("Conformity with these terms alone.",),
)


def test_a_verdict_must_stand_with_its_rule_and_what_it_is_not() -> None:
    pieces = wanted_of_terms(VERDICT)
    said = [VERDICT.verdict, VERDICT.title, *VERDICT.rule, *VERDICT.is_not]
    check_markdown("\n\n".join(said), pieces)
    for lost in said:
        with pytest.raises(Refused, match=r"verdict|decision rule|conformity"):
            check_markdown("\n\n".join(one for one in said if one != lost), pieces)


def test_without_terms_no_verdict_is_wanted() -> None:
    assert wanted_of_terms(None) == ()
