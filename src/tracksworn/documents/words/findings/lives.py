"""Words of history, of hours left, and of lives in step and out of step."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence, Words
from tracksworn.documents.words.language import N_, NP_

_ENDS_BEFORE: Final = NP_("{parts} ends well before {others}", "{parts} end well before {others}")

FINDINGS: Final[Mapping[str, Words]] = {
    "grown-back": Words(
        "a reading smaller than at an earlier inspection by more than the doubt of both",
        NP_(
            "{parts} reads less worn than at an earlier inspection",
            "{parts} read less worn than at an earlier inspection",
        ),
    ),
    "jumped": Words(
        "a reading larger than a short while before by more than the doubt of both",
        NP_(
            "{parts} reads far more worn than a short while before",
            "{parts} read far more worn than a short while before",
        ),
    ),
    "wears-faster-lately": Words(
        "wear since an earlier inspection faster than since the part went on, beyond the doubt of both rates",
        NP_("{parts} wears faster than it did", "{parts} wear faster than they did"),
    ),
    "stops-first": Words(
        "the part that reaches its limit first, and in how many hours",
        NP_("{parts} reaches its limit first", "{parts} reach their limit first"),
    ),
    "chain-out-of-step": Words("bushings or joints that end well before the links, or after them", _ENDS_BEFORE),
    "wheels-out-of-step": Words(
        "sprockets or bottom rollers that end well before the chain, or after it", _ENDS_BEFORE
    ),
    "lives-in-step": Words(
        "parts that end together with the links, as far as can be told",
        N_("{parts} end at about the same time"),
    ),
    "hours-left-unknown": Words(
        "a part near its limit of which no hours left can be told",
        NP_("How long {parts} lasts cannot be told", "How long {parts} last cannot be told"),
    ),
}

ADVICE: Final[Mapping[str, Sentence]] = {
    "grown-back": NP_(
        "Ask whether it was renewed since, and have the invoice and the hours written down. If not, check the "
        "chart and measure again at the same spots with the same gauge: until then no rate of wear stands on it.",
        "Ask whether they were renewed since, and have the invoice and the hours written down. If not, check the "
        "chart and measure again at the same spots with the same gauge: until then no rate of wear stands on them.",
    ),
    "jumped": N_(
        "Measure again at the same spots with the same gauge, and ask whether parts were exchanged: so few hours "
        "cannot wear so much. Until then no rate of wear stands on these figures."
    ),
    "wears-faster-lately": N_(
        "Ask what has changed: the ground, packing, the tension of the track, a joint run dry. Measure again in half "
        "the usual hours."
    ),
    "wears-faster-lately-perhaps-soft": N_(
        "Ask what has changed: the ground, packing, the tension of the track, a joint run dry; or a hardened case of "
        "which the chart says nothing is worn through. Measure again in half the usual hours."
    ),
    "stops-first": NP_(
        "Let its hours set the day of the next visit to the shop, and measure again before half of them have run.",
        "Let their hours set the day of the next visit to the shop, and measure again before half of them have run.",
    ),
    "turn-in-time": N_(
        "Have them turned before their hours have run: by their hours the links last long enough to use the second "
        "side."
    ),
    "turn-if-joints-deserve-it": N_(
        "A turn in time would bring up a second side, but only sound joints deserve it: settle leaks and dry joints "
        "first."
    ),
    "turn-gains-little": N_(
        "Turned, they may well outlast the links: weigh the cost of a turn against the hours that the links have left."
    ),
    "bushings-end-first": N_(
        "No turn is known to be left, so count the chain by its bushings: new pins and bushings pay only while the "
        "rails last."
    ),
    "joints-end-first": N_(
        "Count the chain by its joints, and price new pins and bushings while the rails are still worth them."
    ),
    "links-end-first": N_(
        "The chain ends with its rails: have them rebuilt in time if the joints deserve it, or count what the bushings "
        "have left as lost."
    ),
    "sprockets-end-first": N_(
        "Renew the sprockets before their hours have run, for worn teeth spoil bushings that could run on."
    ),
    "rollers-end-first": N_(
        "Renew them one by one as they end, and measure their neighbours then; the chain can run on."
    ),
    "sprockets-outlast-the-chain": N_(
        "Fit new sprockets with the new chain all the same: worn teeth wear a new chain at their own rate."
    ),
    "rollers-outlast-the-chain": N_(
        "{others} can run on under a new chain: measure them when it goes on, and renew what would not last half of it."
    ),
    "lives-in-step": N_(
        "Plan one visit to the shop for all of them: new beside worn wears faster, and the tracks come off only once."
    ),
    "hours-left-unknown": NP_(
        "Find the invoice or stamp with the hours at which it went on and write them down, or measure it again "
        "after some hundred hours: then its hours left can be told.",
        "Find the invoice or stamp with the hours at which they went on and write them down, or measure them again "
        "after some hundred hours: then their hours left can be told.",
    ),
}
