"""Headings and labels that stand on every certificate, in the reader's language."""

from dataclasses import dataclass
from typing import Annotated

from tracksworn.documents.words.language import N_, Language
from tracksworn.documents.words.translated import translated


@dataclass(frozen=True, slots=True)
class Headings:
    """Fixed words of the page. The defaults are English; `headings` gives those of a language."""

    against: Annotated[str, "beside the chart: what its axes are"] = N_("Percent worn against hours since fitted")
    basis: Annotated[str, "heading of the second sheet"] = N_("What the verdict rests on")
    basis_note: Annotated[str, "beside it"] = N_("Inspection, gauges, what was left out, cautions")
    inspection: Annotated[str, "heading of what identifies machine and inspection"] = N_("Machine and inspection")
    method: Annotated[str, "heading of how it was inspected"] = N_("Method")
    instruments: Annotated[str, "heading of the gauges"] = N_("Equipment and its calibration")
    instrument: Annotated[str, "head of a column: the gauge"] = N_("Instrument")
    resolution: Annotated[str, "head of a column"] = N_("resolution")
    accuracy: Annotated[str, "head of a column"] = N_("accuracy")
    calibrated: Annotated[str, "head of a column"] = N_("calibrated")
    fitted: Annotated[str, "heading of when parts went on"] = N_("Fitted")
    not_seen: Annotated[str, "heading of what was not seen, reached or asked for"] = N_("Not seen, and left out")
    all_seen: Annotated[str, "where no part was left unseen"] = N_(
        "No part that the inspection asks for was left unseen."
    )
    read_with: Annotated[str, "heading of which part was read with which gauge, at which joints"] = N_("Read with")
    opinions: Annotated[str, "heading of what is no part of the verdict"] = N_("Opinions, no part of the verdict")
    cautions: Annotated[str, "heading of the cautions"] = N_("Cautions")
    standing_terms: Annotated[str, "heading of the firm's terms"] = N_("Standing terms")
    signed: Annotated[str, "heading of the signature"] = N_("Signature")
    signature: Annotated[str, "under the ruled line for the hand"] = N_("signature")
    day_signed: Annotated[str, "under the ruled line for the day"] = N_("date")
    check: Annotated[str, "heading of how to check the document"] = N_("How to check it")
    sheet: Annotated[str, "label of the sheet's number"] = N_("Sheet")
    of: Annotated[str, "between a sheet's number and their count"] = N_("of")
    fingerprint: Annotated[str, "label of the whole fingerprint"] = N_("Fingerprint of the data, SHA-256")
    not_sealed: Annotated[str, "that the file bears no electronic signature"] = N_("not sealed")
    colon: Annotated[str, "between a label and what it says"] = N_(": ")
    semicolon: Annotated[str, "between what is said after one another"] = N_("; ")


def headings(language: Language) -> Headings:
    """The headings in the reader's language."""
    return translated(Headings(), language)
