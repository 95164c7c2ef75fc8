"""Headings and labels that stand on every index and catalogue of a sale, in the reader's language."""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.words.language import C_, N_, Language
from tracksworn.documents.words.translated import translated


@dataclass(frozen=True, slots=True)
class Headings:
    """Fixed words of the pages. The defaults are English; `headings` gives those of a language."""

    lots: Annotated[str, "heading of the list of lots"] = N_("Lot by lot")
    lot: Annotated[str, "head of the column of lots"] = N_("Lot")
    machine: Annotated[str, "head of the column of machines"] = N_("Machine")
    hours: Annotated[str, "head of the column of machine hours"] = C_("head of a narrow column", "Hours")
    inspected: Annotated[str, "head of the column of days"] = C_("of lots", "Inspected")
    whole: Annotated[str, "head of the column of overall figures"] = N_("Overall, % worn")
    reach: Annotated[str, "head of the column of lines, for where the table is heard"] = N_(
        "Interval, with the unseen as new and at its limit"
    )
    cost_seen: Annotated[str, "head of the column of shares seen"] = N_("Cost seen")
    seen: Annotated[str, "after the share that was seen, where there is little room"] = N_("seen")
    seen_of_cost: Annotated[str, "what was seen"] = N_("{share} of the cost seen")
    worst: Annotated[str, "head of the column of most worn parts"] = N_("Worst part, % worn")
    hours_left: Annotated[str, "head of the column of hours left"] = N_("Hours to next limit")
    worst_part: Annotated[str, "label of the most worn part"] = N_("Worst part")
    hours_left_short: Annotated[str, "label of hours left"] = N_("Hours left")
    how_to_read: Annotated[str, "link from the list to its legend"] = N_("Reading this list")
    key: Annotated[str, "on every sheet of lots, what its signs mean"] = N_(
        "≈ and a dashed bar: all judged by eye; seen: by cost."
    )
    not_seen: Annotated[str, "label of parts not seen"] = N_("Not seen")
    terms: Annotated[str, "label of the verdict by terms"] = N_("Terms")
    look: Annotated[str, "head of the column of reasons"] = N_("Another look")
    why: Annotated[str, "before the reasons of a lot"] = N_("Another look")
    documents: Annotated[str, "head of the column of documents"] = N_("Documents")
    to_act_on: Annotated[str, "before findings that ask for action"] = N_("To act on")
    more: Annotated[str, "behind the first of them"] = N_("{n} more on its sheet")
    figures: Annotated[str, "heading of the figures of all lots"] = N_("All lots together")
    figures_note: Annotated[str, "beside it"] = N_("Lots by how worn the whole is, in percent")
    stage: Annotated[str, "head of the column of stages"] = N_("Stage")
    count: Annotated[str, "head of the column of counts"] = N_("Lots")
    reasons: Annotated[str, "heading of the reasons for another look"] = N_("Which lots need another look")
    meaning: Annotated[str, "link from the reasons in few words to those in full"] = N_("what these reasons mean")
    reason: Annotated[str, "head of the column of reasons"] = N_("Because")
    which: Annotated[str, "head of the column of lot numbers"] = N_("Which")
    none_at_all: Annotated[str, "where no lot needs another look"] = N_("No lot asks for another look.")
    contents: Annotated[str, "heading of the table of contents"] = N_("Contents")
    by_machine: Annotated[str, "heading of lots by maker and model"] = N_("By maker and model")
    by_reason: Annotated[str, "heading of lots by reason"] = N_("By reason for another look")
    finding: Annotated[str, "heading of both lists"] = N_("Finding a lot")
    finding_note: Annotated[str, "beside it"] = N_("Lots without a number stand by that of their inspection")
    closing: Annotated[str, "heading of cautions and signature"] = N_("Cautions and signature")
    reading: Annotated[str, "before the legend"] = N_("Reading this list.")
    find: Annotated[str, "label of the field that filters by text"] = N_("Find lot, machine, serial number")
    all_stages: Annotated[str, "the filter by stage: no filter"] = N_("every stage")
    all_lots: Annotated[str, "the filter by reason: no filter"] = N_("every lot")
    any_reason: Annotated[str, "the filter by reason: any"] = N_("another look, for any reason")
    no_reason: Annotated[str, "the filter by reason: none"] = N_("no other look asked for")
    sort: Annotated[str, "label of the choice of order"] = N_("Order by")
    in_list_order: Annotated[str, "the order of the list"] = N_("as listed")
    upwards: Annotated[str, "said of an order"] = N_("least first")
    downwards: Annotated[str, "said of an order"] = N_("most first")
    reverse: Annotated[str, "button that turns the order round"] = N_("Turn the order round")
    show_all: Annotated[str, "button that takes all filters away"] = N_("Show all")
    shown: Annotated[str, "how many rows remain; its places are filled by the page"] = N_(
        "{n} of {all} lots shown; {order}"
    )
    nothing_left: Annotated[str, "where a filter leaves no lot"] = N_("No lot is like that. Take a filter away.")
    cautions: Annotated[str, "heading of the cautions"] = N_("Cautions")
    signed: Annotated[str, "heading of the signature"] = N_("Signature")
    signature: Annotated[str, "under the ruled line"] = N_("signature")
    sheet: Annotated[str, "label of the sheet's number"] = N_("Sheet")
    of: Annotated[str, "between a sheet's number and their count"] = N_("of")
    fingerprint: Annotated[str, "label of the whole fingerprint"] = N_("All lots: SHA-256 of index.jsonl")
    not_sealed: Annotated[str, "beside the fingerprint of an unsealed document"] = N_("not sealed")
    colon: Annotated[str, "between a label and what it says"] = N_(": ")
    semicolon: Annotated[str, "between what is said after one another"] = N_("; ")


def headings(language: Language) -> Headings:
    """The headings in the reader's language."""
    return translated(Headings(), language)
