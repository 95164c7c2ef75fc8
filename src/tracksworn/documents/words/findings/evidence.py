"""Words of charts, assumptions, evidence and what was not seen."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence, Words
from tracksworn.documents.words.language import N_, NP_

FINDINGS: Final[Mapping[str, Words]] = {
    "chart-stands-in": Words(
        "the chart was not made for this machine", N_("The wear chart was made for another machine")
    ),
    "another-make": Words(
        "parts of another make on a chart that was not made for them",
        NP_("{parts} is of another make than the chart's", "{parts} are of another make than the chart's"),
    ),
    "adapted-part": Words(
        "a part adapted from another place, or seen to be the wrong one",
        NP_("{parts} was not made for its place", "{parts} were not made for their place"),
        N_("Washers, spacers or welded ears; another height, hub or colour than its neighbours."),
    ),
    "impact-decides": Words(
        "impact not told, and the chart's other limit gives another stage",
        NP_("How hard it works decides how worn {parts} is", "How hard it works decides how worn {parts} are"),
    ),
    "assumed-decides": Words(
        "a further stage is possible only because of assumed values",
        N_("Assumed values alone make a further stage possible"),
    ),
    "gauge-past-calibration": Words(
        "a gauge used after its calibration was due", N_("{gauge} was past its calibration")
    ),
    "hours-by-word": Words("hours that rest on the owner's word", N_("Hours rest on the owner's word")),
    "not-seen": Words("what was not seen, and why", NP_("{count} part was not seen", "{count} parts were not seen")),
}

ADVICE: Final[Mapping[str, Sentence]] = {
    "chart-stands-in": N_("Find the chart of this machine before money is spent on the strength of these percents."),
    "another-make": N_("Ask the maker of the parts for their sizes; until then take these percents as a guide."),
    "adapted-part": NP_(
        "Take its percent as a guide only, for the chart's sizes are of another part. Have the right part fitted "
        "when its neighbours are renewed.",
        "Take their percents as a guide only, for the chart's sizes are of other parts. Have the right parts "
        "fitted when their neighbours are renewed.",
    ),
    "impact-decides": N_("Ask where it has worked, on rock or on earth, and assess it again with that told."),
    "assumed-decides": N_("Measure them again, with more readings or a calibrated gauge."),
    "gauge-past-calibration": N_("Have the gauge checked; if it reads true, these figures stand."),
    "hours-by-word": N_("Ask for invoices, the work book or telematics: a rate of wear needs more than a word."),
    "not-seen": N_(
        "Have what hides them cleared away before anyone counts on them: they may be as new or at their end."
    ),
}
