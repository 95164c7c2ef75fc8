"""Every sentence in every language: none missing, none unused, each with the places of its source."""

import re
from collections.abc import Iterator
from functools import cache
from importlib import resources
from pathlib import Path
from string import Formatter

import pytest
from babel.core import Locale
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po

import tracksworn.documents
from tracksworn.documents.words import catalogues
from tracksworn.documents.words.catalogues.catalogue import CONTEXT, TRANSLATED, catalogue, parsed, without_context
from tracksworn.documents.words.catalogues.extract import Marked, Source, extract
from tracksworn.documents.words.catalogues.merge import PLURALS, head, merge
from tracksworn.documents.words.language import C_, NP_, Language

SOURCES = Path(tracksworn.documents.__file__).parent
INSIDE = "a sentence inside another: {small} begins small, {kept} as it stands"
"""Where a language takes one of two places."""
SAME = Path(__file__).with_name("same_words.txt")
"""Per language, what truly reads as in English."""


@cache
def text_of(code: str) -> str:
    return resources.files(catalogues).joinpath(f"{code}.po").read_text(encoding="utf-8")


@cache
def read(code: str) -> Catalog:
    with resources.files(catalogues).joinpath(f"{code}.po").open("rb") as file:
        return read_po(file, locale=code)


@cache
def marked() -> tuple[Marked, ...]:
    return extract(SOURCES)


def messages(code: str) -> Iterator[Message]:
    return (one for one in read(code) if one.id)


def pairs(message: Message) -> Iterator[tuple[str, str]]:
    """Each form of a source with its translation."""
    if isinstance(message.id, str):
        yield message.id, str(message.string)
    else:
        yield from zip(message.id, message.string or (), strict=True)


def places(sentence: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(sentence) if name is not None}


# --- every catalogue ---


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_catalogue_has_every_marked_sentence_once_and_no_other(code: str) -> None:
    held = [
        Source(one.context, one.id) if isinstance(one.id, str) else Source(one.context, *one.id)
        for one in messages(code)
    ]
    assert held == [one.source for one in marked()], "python -m tracksworn.documents.words.catalogues"
    assert read(code).obsolete == {}


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_catalogue_is_as_the_program_writes_it(code: str, tmp_path: Path) -> None:
    """So that bringing it up to the sources changes nothing that a translator wrote."""
    file = tmp_path / f"{code}.po"
    file.write_text(text_of(code), encoding="utf-8")
    merge(file, marked())
    assert file.read_text(encoding="utf-8") == text_of(code)


@pytest.mark.parametrize("code", TRANSLATED)
def test_plural_forms_are_those_of_the_language(code: str) -> None:
    """Unicode CLDR, plural rules: which numbers are `one`. Decimals and millions take no other form in a catalogue."""
    assert read(code).plural_expr.strip("()") == PLURALS[code]
    cldr, said = Locale.parse(code).plural_form, catalogue(code).form
    for n in range(200):
        assert (said(n) == 0) is (cldr(n) == "one"), n


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_translation_has_the_places_of_its_source(code: str) -> None:
    wrong = []
    for message in messages(code):
        for source, said in pairs(message):
            if not said or message.context == INSIDE:
                continue
            one_of_a_pair = not isinstance(message.id, str) and source == message.id[0]
            missing = places(source) ^ places(said)
            if missing - ({"n"} if one_of_a_pair else set()):
                wrong.append((source, said))
    assert wrong == []


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_translation_begins_and_ends_with_the_spaces_of_its_source(code: str) -> None:
    def ends(text: str) -> tuple[bool, bool]:
        told = re.sub("^\u202f(?=[;:!?])", "", text)
        return told[:1].isspace(), told[-1:].isspace()

    assert [
        (source, said) for one in messages(code) for source, said in pairs(one) if said and ends(source) != ends(said)
    ] == []


@pytest.mark.parametrize("code", TRANSLATED)
def test_no_translation_is_a_guess(code: str) -> None:
    assert [one.id for one in messages(code) if one.fuzzy] == []


def test_french_spaces_its_punctuation() -> None:
    """A narrow no-break space before ; : ! ? and inside « » (French typographic usage, from memory)."""
    bare = re.compile(r"(?<!\u202f)([;!?»]|:(?=\s|$))|«(?!\u202f)")
    assert [said for one in messages("fr") for _, said in pairs(one) if said and bare.search(said)] == []


@pytest.mark.parametrize("code", TRANSLATED)
def test_every_sentence_is_translated(code: str) -> None:
    assert [source for one in messages(code) for source, said in pairs(one) if not said] == []


@pytest.mark.parametrize("code", TRANSLATED)
def test_no_sentence_is_left_in_english(code: str) -> None:
    """What reads as in English is listed; a name in it that no longer does is told too."""
    listed = set(SAME.read_text(encoding="utf-8").split(f"== {code}\n", 1)[1].split("\n\n", 1)[0].splitlines())
    same = {
        source
        for one in messages(code)
        for source, said in pairs(one)
        if source == said and re.search(r"[^\W\d_]{2,}", re.sub(r"\{\w+\}", "", source))
    }
    assert same == listed


# --- the machinery ---


def test_a_pair_is_counted_and_what_has_a_context_is_said_without_it() -> None:
    one, many = NP_("{n} part of a test", "{n} parts of a test")
    assert [Language(code).count(one, many, n) for code in ("en", "de") for n in (1, 2)] == [
        "1 part of a test",
        "2 parts of a test",
        "1 part of a test",
        "2 parts of a test",
    ]
    assert C_("a test", "word") == f"a test{CONTEXT}word"
    assert without_context(C_("a test", "word")) == Language("fr").say(C_("a test", "word")) == "word"


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_catalogue_reads_as_another_program_reads_it(code: str) -> None:
    """Babel's reader of PO files."""
    ours = catalogue(code)
    other: dict[str, str | tuple[str, ...]] = {}
    for one in messages(code):
        key = one.id if isinstance(one.id, str) else one.id[0]
        said = [text for _, text in pairs(one)]
        if all(said):
            name = key if one.context is None else one.context + CONTEXT + key
            other[name] = said[0] if isinstance(one.id, str) else tuple(said)
    assert {**ours.sentences, **ours.plurals} == other


def test_strings_over_several_lines_and_with_marks_in_them_are_read() -> None:
    text = (
        'msgid ""\nmsgstr ""\n"Language: xx\\n"\n"Plural-Forms: nplurals=2; plural=(n > 1);\\n"\n\n'
        '#. name\nmsgctxt "of"\nmsgid "a \\"word\\""\nmsgstr ""\n"ein "\n"\\"Wort\\" \\\\"\n\n'
        'msgid "{n} a"\nmsgid_plural "{n} as"\nmsgstr[0] "{n} x"\nmsgstr[1] "{n} xs"\n\nmsgid "none"\nmsgstr ""\n'
    )
    held = parsed(text)
    assert held.sentences == {f'of{CONTEXT}a "word"': 'ein "Wort" \\'}
    assert [held.count("{n} a", "{n} as", n) for n in (0, 1, 2)] == ["{n} x", "{n} x", "{n} xs"]
    assert held.say("none") == "none"


@pytest.mark.parametrize("code", TRANSLATED)
def test_a_country_has_the_sentences_of_its_language(code: str) -> None:
    assert catalogue(f"{code}-{code.upper()}").sentences == catalogue(code).sentences


MODULE = """
from x import N_, NP_, C_
ONE = N_("A link" ", long")
TABLE = {Key.LEFT: N_("left"), Key.PAIR: NP_("{n} link", "{n} links")}
def f():
    return C_("of a tooth", "point"), N_("left")
"""


def test_sentences_are_found_where_they_stand(tmp_path: Path) -> None:
    (tmp_path / "a.py").write_text(MODULE, encoding="utf-8")
    found = extract(tmp_path)
    assert [(one.source, one.names) for one in found] == [
        (Source(None, "A link, long"), ["ONE"]),
        (Source(None, "left"), ["TABLE[Key.LEFT]", "f()"]),
        (Source(None, "{n} link", "{n} links"), ["TABLE[Key.PAIR]"]),
        (Source("of a tooth", "point"), ["f()"]),
    ]


@pytest.mark.parametrize("line", ["N_(words)", 'NP_("one")', 'C_("", "word")', 'N_(f"{n} parts")'])
def test_a_mark_around_no_plain_text_is_refused(tmp_path: Path, line: str) -> None:
    (tmp_path / "a.py").write_text(line, encoding="utf-8")
    with pytest.raises(ValueError, match="takes plain texts"):
        extract(tmp_path)


def test_a_sentence_is_single_or_one_of_a_pair(tmp_path: Path) -> None:
    (tmp_path / "a.py").write_text('N_("a link")\nNP_("a link", "{n} links")', encoding="utf-8")
    with pytest.raises(ValueError, match="marked otherwise"):
        extract(tmp_path)


def test_merging_keeps_what_is_translated_and_drops_what_is_not_used(tmp_path: Path) -> None:
    file = tmp_path / "de.po"
    (tmp_path / "a.py").write_text('N_("a link")\nN_("a pin")\nNP_("{n} shoe", "{n} shoes")', encoding="utf-8")
    merge(file, extract(tmp_path))
    translated = (
        file.read_text(encoding="utf-8")
        .replace('"a link"\nmsgstr ""', '"a link"\nmsgstr "ein Kettenglied"')
        .replace('"a pin"\nmsgstr ""', '"a pin"\nmsgstr "ein Bolzen"')
        .replace("# What the reader", "# A note of the translator's. What the reader")
    )
    file.write_text(translated, encoding="utf-8")
    (tmp_path / "a.py").write_text('N_("a new one")\nN_("a link")\nNP_("{n} shoe", "{n} shoes")', encoding="utf-8")
    merge(file, extract(tmp_path))
    merged = file.read_text(encoding="utf-8")
    assert "ein Bolzen" not in merged
    assert re.findall(r'^msgid "(.+)"', merged, re.MULTILINE) == ["a new one", "a link", "{n} shoe"]
    assert re.findall(r'^msgstr "(.+)"', merged, re.MULTILINE) == ["ein Kettenglied"]
    assert merged.startswith("# A note of the translator's. " + head("de").removeprefix("# "))
