"""A folder of a firm's own templates: what is told of it before any of them is used."""

from pathlib import Path

import pytest

from tracksworn.documents import resources
from tracksworn.documents.render.own.folder import MOST_BYTES, MOST_FILES, read_templates
from tracksworn.documents.render.own.templates import KNOWN
from tracksworn.inspection.faults import Faulty

FULL = '{% extends "tracksworn/full.html" %}\n'


def told(folder: Path) -> str:
    with pytest.raises(Faulty) as faulty:
        read_templates(folder)
    return str(faulty.value).replace(f"{folder}/", "")


FAULTS = {
    "no base": ("full.html", "<p>x</p>", "full.html:1:1: it does not say what it is based on; begin it with"),
    "other base": (
        "full.html",
        '{% extends "tracksworn/listing.html" %}',
        'full.html:1:1: full.html can be based on "tracksworn/full.html" alone',
    ),
    "unknown base": ("full.html", '{% extends "ful.html" %}', "full.html:1:1: `ful.html` is no template here"),
    "computed base": ("full.html", "{% extends view.x %}", "full.html:1:1: the name of what is taken in must stand"),
    "no such block": (
        "full.html",
        FULL + "\n{% block finding %}x{% endblock %}",
        "full.html:3:1: `finding` is no block of tracksworn/full.html; did you mean `findings`?",
    ),
    "outside": ("full.html", FULL + "\n\n<p>Hello</p>", "full.html:4:1: this stands outside of every block"),
    "condition outside": ("full.html", FULL + "{% if 1 %}x{% endif %}", "full.html:2:1: this stands outside of every"),
    "syntax": ("full.html", FULL + "{% block whole %}{{ a b }}{% endblock %}", "full.html:2:1: it cannot be read"),
    "left open": ("full.html", FULL + "{% block whole %}", "full.html:2:1: it cannot be read"),
    "recursive": (
        "full.html",
        FULL + "{% block whole %}{% for a in b recursive %}{% endfor %}{% endblock %}",
        "full.html:2:1: a loop cannot be recursive",
    ),
    "reads elsewhere": (
        "full.html",
        FULL + '{% block whole %}{% include "../../etc/passwd" %}{% endblock %}',
        "full.html:2:1: `../../etc/passwd` is no template here",
    ),
    "misspelt name": ("ful.html", FULL, "ful.html:1:1: no template of this name is asked for"),
    "import": ("extra.css", 'a { color: #000 }\n@import "x";', "extra.css:2:1: @import is not offered"),
    "own font": ("extra.css", "@font-face { src: url(x) }", "extra.css:1:1: @font-face is not offered"),
    "paper": ("print.css", "@page { margin: 0 }", "print.css:1:1: @page is not offered: paper, margins, head and foot"),
    "fetched": ("extra.css", "a {\n  background: url(x.png) }", "extra.css:2:3: background: `url()` is not offered"),
    "over others": ("extra.css", ".a { position: fixed }", "extra.css:1:6: position: is not offered, since it could"),
    "negative": ("screen.css", ".a { margin-top: -9px }", "screen.css:1:6: margin-top: -9px would move it over"),
    "nested": ("screen.css", ".a { & b { color: #000 } }", "a rule stands within a rule"),
    "unreadable": ("screen.css", "}", "screen.css:1:1: this cannot be read as a style sheet"),
    "pointed at": ("screen.css", "body:hover p { display: none }", "screen.css:1:1: `body:hover p`: only a link may"),
    "other font": ("extra.css", "p { font-family: Wingdings }", "wingdings is none of the program's fonts"),
    "not there": (None, "", "this folder of templates is not there"),
    "too large": ("full.html", "x" * (MOST_BYTES + 1), "full.html:1:1: it is larger than 200 kB"),
}


@pytest.mark.parametrize(("file", "text", "expected"), FAULTS.values(), ids=FAULTS)
def test_faults_are_told_by_file_and_line(file: str | None, text: str, expected: str, tmp_path: Path) -> None:
    if file is None:
        tmp_path /= "absent"
    else:
        (tmp_path / file).write_text(text, encoding="utf-8")
    assert expected in told(tmp_path)


def test_a_folder_without_a_known_name_is_told_all_names(tmp_path: Path) -> None:
    (tmp_path / "README.md").write_text("x", encoding="utf-8")
    said = told(tmp_path)
    assert all(name in said for name in KNOWN)


def test_what_leads_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "outside.html").write_text("secret", encoding="utf-8")
    folder = tmp_path / "own"
    folder.mkdir()
    (folder / "full.html").symlink_to(tmp_path / "outside.html")
    assert "full.html:1:1: it leads outside of the folder" in told(folder)


def test_what_is_no_text_or_no_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "full.html").write_bytes(b"{# \n\xff #}")
    (tmp_path / "full.md").mkdir()
    said = told(tmp_path)
    assert "full.html:2:1: it is not UTF-8" in said
    assert "full.md:1:1: it is no ordinary file" in said


def test_too_many_files_are_refused(tmp_path: Path) -> None:
    for number in range(MOST_FILES + 2):
        (tmp_path / f"piece-{number}.html").write_text("x", encoding="utf-8")
    assert f"more than {MOST_FILES} templates" in told(tmp_path)


def test_a_sound_folder_is_read_whole(tmp_path: Path) -> None:
    (tmp_path / "full.html").write_text(
        FULL + '{% block whole %}{% include "ours.html" %}{{ super() }}{% endblock %}', encoding="utf-8"
    )
    (tmp_path / "ours.html").write_text("<p>ours</p>", encoding="utf-8")
    (tmp_path / "notes.txt").write_text("left alone", encoding="utf-8")
    own = read_templates(tmp_path)
    assert sorted(own.texts) == ["full.html", "ours.html"]
    assert own.style("extra.css") == ""


def test_the_readme_names_every_file_and_shows_the_example() -> None:
    readme = (resources.templates() / "README.md").read_text(encoding="utf-8")
    assert all(f"`{name}`" in readme for name in KNOWN)
    example = (resources.templates() / "example" / "full.html").read_text(encoding="utf-8")
    for line in ('{% extends "tracksworn/full.html" %}', "{{ self.findings() }}", '<section class="yard">'):
        assert line in readme
        assert line in example
