"""Templates say nothing of their own: signs between two values are each language's, from `words`."""

import re

import pytest

from tracksworn.documents import resources

PAGES = sorted(file.name for file in resources.templates().iterdir() if file.name.endswith((".html", ".md")))
LEFT_OUT = re.compile(r"{#.*?#}|{%.*?%}|{{.*?}}|<style>.*?</style>|&\w+;|<[^>]*>", re.DOTALL)


@pytest.mark.parametrize("name", [one for one in PAGES if one not in ("README.md", "VALUES.md")])
def test_no_template_has_a_colon_or_semicolon_of_its_own(name: str) -> None:
    text = (resources.templates() / name).read_text(encoding="utf-8")
    said = LEFT_OUT.sub("\0", text)
    assert re.findall(r"[^\n\0]*(?<!-)[:;] [^\n\0]*", said) == []
