"""Every finding has its words, every place in them is filled, and no words stand unused."""

from collections.abc import Iterator

import pytest
from finding_cases import CASES
from finding_cases.case import Case
from finding_cases.walks import C, G, S, T, Walk, found, of_code, saw

from tracksworn.assessment.findings.codes import CODES
from tracksworn.assessment.sayings import Finding, Saying, Severity
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.findings import ADVICE, WORDS, catalogue, say_finding
from tracksworn.documents.words.findings.reasons import REASONS, WHERE_ALIKE
from tracksworn.documents.words.findings.sentences import Sentence, places_of
from tracksworn.documents.words.findings.short import SHORT

FIGURES = Figures()


def all_findings() -> Iterator[Finding]:
    for case in CASES:
        yield from found(case.fires)


@pytest.fixture(scope="module")
def raised() -> tuple[Finding, ...]:
    return tuple(all_findings())


def reasons_of(raised: tuple[Finding, ...]) -> Iterator[Saying]:
    for finding in raised:
        yield from finding.because


def test_every_code_has_its_words_and_no_words_are_unused(raised: tuple[Finding, ...]) -> None:
    assert set(WORDS) == set(CODES)
    alike = {code for _, _, code in WHERE_ALIKE.values()}
    assert {reason.code for reason in reasons_of(raised)} | alike == set(REASONS)
    assert {finding.advice.code for finding in raised} == set(ADVICE)


def test_a_reason_gives_just_what_its_sentence_has_places_for(raised: tuple[Finding, ...]) -> None:
    for reason in reasons_of(raised):
        assert set(reason.amounts) == places_of(REASONS[reason.code]), reason.code


def test_a_title_has_its_places_filled(raised: tuple[Finding, ...]) -> None:
    for finding in raised:
        assert places_of(WORDS[finding.code].title) <= set(finding.amounts), finding.code
        assert places_of(ADVICE[finding.advice.code]) <= {*finding.amounts, *finding.advice.amounts}, finding.code


@pytest.mark.parametrize("case", CASES, ids=str)
def test_says_what_the_case_is_called(case: Case) -> None:
    (finding,) = of_code(found(case.fires), case.code)
    assert say_finding(finding, FIGURES).title == case.title


def test_titles_are_headings_and_the_rest_are_sentences(raised: tuple[Finding, ...]) -> None:
    for finding in raised:
        words = say_finding(finding, FIGURES)
        assert not words.title.endswith(".")
        for sentence in (*words.reasons, words.advice, *([words.look_for] if words.look_for else [])):
            assert sentence.endswith("."), sentence
            assert sentence[0].upper() == sentence[0], sentence
            assert "{" not in sentence
            assert "None" not in sentence


def test_one_and_many_have_the_same_places() -> None:
    sentences: list[Sentence] = [*ADVICE.values(), *REASONS.values(), *(words.title for words in WORDS.values())]
    for sentence in sentences:
        if isinstance(sentence, tuple):
            assert places_of(sentence[0]) == places_of(sentence[1])


def test_what_asks_for_action_has_its_advice_in_few_words(raised: tuple[Finding, ...]) -> None:
    pressing = {finding.advice.code for finding in raised if finding.severity is Severity.ACT}
    assert pressing <= set(SHORT)
    assert all(len(said.split()) <= 9 for said in SHORT.values())
    assert set(SHORT) <= set(ADVICE)


def test_figures_are_in_the_reader_s_units() -> None:
    (finding,) = of_code(found(Walk({C.LINK: (85, 50)})), "near-limit")
    assert say_finding(finding, Figures("mm")).reasons[0] == (
        "Left links: 115\u202fmm, limit 100\u202fmm, worn 85\u00a0% (76 to 94)."
    )
    assert say_finding(finding, Figures("in")).reasons[0] == (
        "Left links: 4.53\u202fin, limit 3.94\u202fin, worn 85\u00a0% (76 to 94)."
    )


def test_two_ends_that_print_alike_are_said_once() -> None:
    (finding,) = of_code(found(Walk({C.PITCH: ([40, 40], 10)}, track=T.DRY)), "even-growth")
    assert say_finding(finding, FIGURES).reasons == ("Left pitch: 2 spans of 840\u202fmm, worn 40\u00a0%.",)
    (finding,) = of_code(found(Walk({C.BOTTOM_ROLLER: ([101.2, 101.1, 101.3, 101.2], 10)})), "past-limit")
    assert say_finding(finding, FIGURES).reasons == ("Left bottom rollers 1 to 4: worn 101\u00a0%.",)


def test_work_that_hurts_defers_to_the_maker_s_manual() -> None:
    for code in (
        "master-joint-loose",
        "track-off",
        "frame-cracked",
        "cracked",
        "adjuster-leak",
        "adjuster-near-end",
        "seized",
    ):
        assert "the maker's manual" in str(ADVICE[code]).lower(), code


def test_the_catalogue_lists_every_code_once_with_its_meaning() -> None:
    entries = catalogue()
    assert [entry.code for entry in entries] == list(CODES)
    assert all(entry.meaning and entry.severities == CODES[entry.code] for entry in entries)


def test_advice_for_several_parts_speaks_of_several() -> None:
    leaks = [saw(f"left bottom roller {number}", S.LEAK, G.MARKED) for number in (1, 2)]
    (one,) = of_code(found(Walk(saw=leaks[:1])), "roller-leak")
    (two,) = of_code(found(Walk(saw=leaks)), "roller-leak")
    assert say_finding(one, FIGURES).advice.startswith("See that it turns freely")
    assert say_finding(two, FIGURES).advice.startswith("See that they turn freely")
