"""Why something is concluded: one sentence for each reason."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence
from tracksworn.documents.words.language import N_, NP_

REASONS: Final[Mapping[str, Sentence]] = {
    # readings
    "measured": N_("{part}: {size}, limit {limit}, worn {worn}."),
    "measured-mean": N_("{part}: {size} in the mean of {readings} readings, limit {limit}, worn {worn}."),
    "judged": N_("{part}: worn {worn} by eye."),
    "judged-together": N_("{parts}: worn {worn} by eye."),
    "worn-together": N_("{parts}: worn {least} to {most}."),
    "worn-alike": N_("{parts}: worn {least}."),
    "fails-at": N_("By the chart it may fail in use from {size}."),
    "near-limit-too": N_("Near the limit as well: {parts}."),
    "may-be-past": N_("May be past the limit already, within its uncertainty: {parts}."),
    "joint-past": N_("The most worn of the {part}: {size}, worn {worn}."),
    "numbered-joint-past": N_("{part}: {size}, worn {worn}."),
    "further-joint": N_("One further joint may read up to {worn}."),
    "delta": N_("{part}: {left} left, {right} right; left less right {delta} points."),
    "delta-left-by-eye": N_("{part}: {left} left by eye, {right} right; left less right {delta} points."),
    "delta-right-by-eye": N_("{part}: {left} left, {right} right by eye; left less right {delta} points."),
    "delta-by-eye": N_("{part}: {left} left, {right} right, both by eye; left less right {delta} points."),
    "delta-in-the-mean": N_("{part}: left less right {delta} points, in the mean of {pairs} places."),
    "delta-at-one-place": N_("{part}: left less right {delta} points, at the one place seen on both sides."),
    # observations
    "seen": N_("{part}: {signs}."),
    "seen-in-note": N_("{part}: see observation {number} and its note."),
    "seen-graded": N_("{part}: {signs} ({grade})."),
    "seen-sized": N_("{part}: {signs}, {size}."),
    "seen-graded-sized": N_("{part}: {signs} ({grade}), {size}."),
    # chain
    "span-stands-out": N_("{part}: one span of {size}, worn {worn}; the median of the others is {others}."),
    "numbered-span-stands-out": N_(
        "{part}: {size} from joint {joint}, worn {worn}; the median of the others is {others}."
    ),
    "joint-in-span": N_("The long span from joint {first} of the {chain} takes in joint {joint}."),
    "joint-hot": N_("A joint of the {chain} at {hot}; the median of its side is {middle}."),
    "joint-hot-after": N_("A joint of the {chain} at {hot}, {after} after work; the median of its side is {middle}."),
    "numbered-joint-hot": N_("Joint {joint} of the {chain} at {hot}; the median of its side is {middle}."),
    "numbered-joint-hot-after": N_(
        "Joint {joint} of the {chain} at {hot}, {after} after work; the median of its side is {middle}."
    ),
    "sag-beyond": N_("{part} {size}, over the chart's {most}: the chain hangs slack."),
    "spans-alike": N_("{part}: {spans} spans of {shortest}, worn {least}."),
    "spans-even": N_("{part}: {spans} spans of {shortest} to {longest}, none worn less than {least}."),
    "links-counted": N_("Links counted: {left} left, {right} right."),
    "links-counted-one-side": N_("{chain}: {count} links counted."),
    "links-in-chart": N_("The chart has {count} links a side."),
    "turns-left": NP_("{part}: {count} turn left.", "{part}: {count} turns left."),
    "joint-dry": N_("{part}: a joint of this side has likely run dry."),
    "turn-not-recorded": N_("{parts}: whether they were turned is not recorded, so no turn is counted."),
    # sprocket
    "reverse-ahead": N_("{part}: reverse side worn {reverse}, forward side {forward}."),
    "out-of-step": N_("They stand {apart} points apart."),
    "turned-since": N_("{part}: turned at {hours} hours, and on another side since."),
    "fitted-apart": N_("{sprocket} fitted at {first} hours, {partner} at {second}."),
    # rollers, idlers, adjuster
    "flange-clear-by": N_("{part}: {size} left between flange and pin bosses."),
    "end-play-allowed": N_("The chart allows {size}."),
    "two-idlers": N_("Two idlers a side hollow the rail more than one."),
    "treads-uneven": N_("{part}: inner tread worn {inner}, outer tread {outer}."),
    "travel-used": N_("{part}: {size}, {used} of its travel used."),
    "rod-against-pitch": N_("{part}: rod at {rod}; pitch grown by {growth} a link explains about {expected}."),
    "sag-over": N_("{part}: {size}, over the range of {least} to {most}."),
    "sag-under": N_("{part}: {size}, under the range of {least} to {most}."),
    "sag-packed": N_("The tracks were packed, which tightens them."),
    "sag-stop-unknown": N_("How the machine was stopped is not recorded."),
    "sag-packing-unknown": N_("Whether the tracks were packed is not recorded."),
    # shoes, rubber
    "shoe-width": N_("Shoes {width} wide; the chart's narrowest is {narrowest}."),
    "ground-rock": N_("The machine works on rock."),
    "ground-firm": N_("The machine works on firm ground, none of it soft."),
    "whatever-the-lugs-read": N_("The height of the lugs says nothing of the cords."),
    # history and hours
    "inspected-before": N_(
        "Earlier inspection {number}: {then}. This one: {now}. The machine's hours are not known of both."
    ),
    "inspected-before-at-hours": N_(
        "Earlier inspection {number}: {then}, at {first} machine hours. This one: {now}, at {second}."
    ),
    "other-inspector": N_("Measured by {before} then, by {after} now."),
    "then-and-now": N_("{part}: worn {then} then, {now} now."),
    "then-and-now-together": N_("{parts}: worn {then} then, {now} now."),
    "faster-lately": N_("{part}: {lately} points in 100 hours over the last {hours} hours, {since} in the long run."),
    "hours-left": N_("{part}: {hours} machine hours left."),
    "may-be-first": N_("May be first as well: {parts}."),
    "ends-before": N_("{parts}: {hours} machine hours before {others}."),
    "no-hours-for": N_("No hours left can be told for {parts}."),
    "fitting-unknown": NP_(
        "{parts}: the hours at which it went on are not recorded, or nothing stands behind them.",
        "{parts}: the hours at which they went on are not recorded, or nothing stands behind them.",
    ),
    "no-rate": N_("{parts}: no rate of wear follows from what was told."),
    # chart and evidence
    "chart-made-for-another": N_("“{chart}” stands in for a chart of the {machine}."),
    "of-another-make": N_("Of another make: {parts}."),
    "adapted": N_("Adapted from another place: {parts}."),
    "stage-by-assumption": N_(
        "{parts}: only the assumed part of the uncertainty carries the interval into the next stage."
    ),
    "on-the-other-limit": N_("{part}: worn {worn} on the limit taken, {other} on the chart's other one."),
    "gauge-was-due": N_("{gauge}: calibration was due on {due}."),
    "read-with-it": N_("Read with it: {parts}."),
    "machine-hours-by-word": N_("{hours} machine hours, by the owner's word."),
    "fitted-by-word": N_("Hours at fitting by the owner's word: {parts}."),
    "not-recorded": N_("{parts}: no reason recorded."),
    "not-seen-because": N_("{parts}: {reason}."),
    "share-seen": N_("What was seen is {share} of the cost of the undercarriage."),
}
"""By the code of the reason."""

WHERE_ALIKE: Final[Mapping[str, tuple[str, str, str]]] = {
    "worn-together": ("least", "most", "worn-alike"),
    "spans-even": ("shortest", "longest", "spans-alike"),
}
"""Two places of a reason, and the code of the words that stand where both print alike."""
