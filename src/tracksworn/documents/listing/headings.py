"""Headings and labels that stand on every listing sheet, in the reader's language."""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.words.language import N_, Language
from tracksworn.documents.words.translated import translated


@dataclass(frozen=True, slots=True)
class Headings:
    """Fixed words of the sheet. The defaults are English; `headings` gives those of a language."""

    lot: Annotated[str, "before the lot's number"] = N_("lot")
    at_a_glance: Annotated[str, "what the large figures are, for where they are heard"] = N_("At a glance")
    worn: Annotated[str, "heading of the rules"] = N_("Percent worn, left and right")
    component: Annotated[str, "head of the first column, for where the table is heard"] = N_("Component")
    left: Annotated[str, "head of the left half"] = N_("Left")
    right: Annotated[str, "head of the right half"] = N_("Right")
    difference: Annotated[str, "head of the middle: left less right"] = N_("difference")
    legend: Annotated[str, "how a rule is read"] = N_(
        "0 is as new, 100 the limit, where a part is turned, rebuilt or replaced; it is not breakage. Hatched: metal "
        "gone; solid: metal left; stroke: limit; whisker: 95\u00a0% interval; dashes: by eye; empty: not seen."
    )
    found: Annotated[str, "heading of what asks for action"] = N_("Act on")
    also: Annotated[str, "before observations that the drawings have no words for"] = N_("Also seen:")
    not_seen: Annotated[str, "heading of what was not seen"] = N_("Not seen")
    all_seen: Annotated[str, "where every part was seen"] = N_("Every part was seen or measured.")
    cautions: Annotated[str, "heading of the hazards"] = N_("Before anyone works on it")
    rules: Annotated[str, "before the published rules"] = N_("Rules:")
    what: Annotated[str, "heading of what the sheet is"] = N_("What this sheet is.")
    sheet: Annotated[str, "label of the sheet's number"] = N_("Sheet")
    of: Annotated[str, "between a sheet's number and their count"] = N_("of")
    fingerprint: Annotated[str, "label of the whole fingerprint"] = N_("Fingerprint of the data, SHA-256")
    not_sealed: Annotated[str, "beside the fingerprint of an unsealed document"] = N_("not sealed")
    colon: Annotated[str, "between a label and what it says"] = N_(": ")
    semicolon: Annotated[str, "between what is said after one another"] = N_("; ")


def headings(language: Language) -> Headings:
    """The headings in the reader's language."""
    return translated(Headings(), language)
