"""Users' Markdown: what it may do, and that nothing else comes through in HTML or in Markdown."""

import re

import markdown
import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from tracksworn.documents.render.gate.marked import check_markdown
from tracksworn.documents.render.notes import escaped, to_html, to_markdown

HARMLESS = (
    ("plain", "<p>plain</p>"),
    ("*soft* and **strong**", "<p><em>soft</em> and <strong>strong</strong></p>"),
    ("[a](https://a.example/x?y=1&z=2)", '<p><a href="https://a.example/x?y=1&amp;z=2">a</a></p>'),
    ("<mailto:a@b.example>", '<p><a href="mailto:a@b.example">a@b.example</a></p>'),
    ("- one\n- two", "<ul>\n<li>one</li>\n<li>two</li>\n</ul>"),
    ("# Heading", "<p><strong>Heading</strong></p>"),
    ("a  \nb", "<p>a<br />\nb</p>"),
    ("`x < y`", "<p><code>x &lt; y</code></p>"),
    ("![the oil](oil.jpg)", "<p>the oil</p>"),
    ("5 < 6 & 7", "<p>5 &lt; 6 &amp; 7</p>"),
)

UNSAFE = (
    "<script>alert(1)</script>",
    '<img src="x" onerror="alert(1)">',
    "<svg><script>alert(1)</script></svg>",
    "[a](javascript:alert(1))",
    "[a](JaVaScRiPt:alert(1))",
    "[a](java\tscript:alert(1))",
    "[a](data:text/html,x)",
    "[a](//evil.example)",
    "[a](/etc/passwd)",
    "[a](file:///etc/passwd)",
    "[a](vbscript:x)",
    "![a](https://evil.example/a.png)",
    "![a](data:image/png;base64,AAAA)",
    "![a][b]\n\n[b]: https://evil.example/a.png",
    "<a href='javascript:alert(1)'>a</a>",
    "<iframe src='https://evil.example'></iframe>",
    "<style>* { display: none }</style>",
    "<!-- hidden -->",
    "<div style='display:none'>",
    "<b>unclosed",
    "</p></div><h1>out</h1>",
    "&lt;script&gt;alert(1)&lt;/script&gt;",
    "&#60;script&#62;alert(1)&#60;/script&#62;",
    '<https://a.example/" onclick="alert(1)>',
    "{{ 7 * 7 }} {% raw %}",
    '[a](https://a.example "x" onclick=y)',
)

ALLOWED = re.compile(
    r"</?(?:p|ul|ol|li|blockquote|pre|table|thead|tbody|tr|th|td|strong|em|code|span)>|<(?:br|hr) ?/>|</a>"
    r'|<a href="(?:https?://|mailto:)[^"<>\s]*">'
)


@pytest.mark.parametrize(("text", "html"), HARMLESS)
def test_ordinary_markdown_is_kept(text: str, html: str) -> None:
    assert str(to_html(text)).strip() == html


@pytest.mark.parametrize("text", UNSAFE)
def test_nothing_unsafe_comes_through(text: str) -> None:
    left = ALLOWED.sub("", str(to_html(text)))
    assert "<" not in left
    assert ">" not in left


@pytest.mark.parametrize("text", UNSAFE)
def test_nothing_unsafe_comes_through_when_written_anew_as_markdown(text: str) -> None:
    again = markdown.markdown(to_markdown(text))
    left = ALLOWED.sub("", again)
    assert "<" not in left
    assert "<img" not in again


def test_raw_html_is_printed_as_text() -> None:
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in to_html("<script>alert(1)</script>")


@pytest.mark.parametrize("text", [text for text, _ in HARMLESS])
def test_markdown_written_anew_means_the_same(text: str) -> None:
    assert to_html(to_markdown(text)) == to_html(text)


@pytest.mark.parametrize("text", ["a | b", "*x*", "[x](y)", "<b>", "`c`", "a_b_c", "&amp;", "\\", "~~x~~", "![x](y)"])
def test_plain_text_stays_plain_in_markdown(text: str) -> None:
    shown = re.sub(r"^<p>|</p>$", "", markdown.markdown(f"x {escaped(text)}"))
    assert (
        shown.replace("&amp;", "&").replace("&lt;", "<").replace("&gt;", ">").replace("\\~", "~").replace("\\|", "|")
        == f"x {text}"
    )


@given(st.text(alphabet="ab <>&\"'()[]!*_`#\n:/=;-\\", max_size=60))
def test_any_text_gives_well_formed_safe_html(text: str) -> None:
    left = ALLOWED.sub("", str(to_html(text)))
    assert "<" not in left


@pytest.mark.parametrize(
    "text", ["5 $$ and 6 %% mud", "{{x}} {% y %}", "::: note", "**b**{.x}", "--- a", "~~x~~", "$$$ %%%"]
)
def test_what_some_readers_of_markdown_take_for_more_is_printed_as_text(text: str) -> None:
    written = to_markdown(text)
    check_markdown(f"Notes\n\n{written}\n", [])
    html = MarkdownIt().render(written)
    assert re.sub(r"</?(p|strong)>|\n", "", html) == text.replace("**", "")


def test_a_list_of_numbers_starts_no_list_by_itself() -> None:
    assert to_markdown("5\\. not a list") == "5\\. not a list"
