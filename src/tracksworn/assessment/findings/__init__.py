"""Signs read together: cross-checks on the figures of an assessment and on what was seen.

Each check is one small function from what is known so far to findings. `findings` runs the table of checks and puts
what they found in order: what asks for action first, and within that as the table has it.
"""

from collections.abc import Callable, Iterator
from typing import Final

from tracksworn.assessment.findings import (
    adjuster,
    bushing,
    chain,
    chart_doubts,
    damage,
    evidence,
    first_limit,
    frame,
    history,
    idlers,
    limits,
    links,
    lives,
    rollers,
    rubber,
    shoes,
    sides,
    sprocket,
)
from tracksworn.assessment.findings.first_things import heed_acts
from tracksworn.assessment.findings.left_over import left_over
from tracksworn.assessment.sayings import Finding, Severity
from tracksworn.assessment.so_far import SoFar

Check = Callable[[SoFar], Iterator[Finding]]

CHECKS: Final[tuple[Check, ...]] = (
    rubber.track_off,
    links.loose_master_joint,
    damage.frame_cracked,
    damage.cracked,
    rubber.cord_showing,
    damage.seized,
    damage.stuck,
    links.pin_walk,
    limits.destroyed,
    limits.past_limit_and_leaking,
    limits.past_limit,
    limits.joint_past_limit,
    chain.dry_joint,
    chain.hot_joint,
    damage.wheel_leaks,
    damage.final_drive_leaks,
    damage.adjuster_leaks,
    damage.joint_leaks,
    damage.pivot_leaks,
    damage.frame_leaks,
    bushing.due_for_turning,
    limits.near_limit,
    limits.grouser_low,
    sides.sides_differ,
    history.grown_back,
    history.jumped,
    history.wears_faster_lately,
    sprocket.ahead,
    sprocket.behind,
    adjuster.near_end,
    links.link_taken_out,
    links.links_unequal,
    links.links_short,
    links.links_over,
    idlers.frame_alignment,
    idlers.guides_worn,
    frame.equaliser_bar,
    frame.pivot_shaft,
    frame.frame_bent,
    rollers.flange_on_pin_boss,
    rollers.flange_on_bushing,
    rollers.idler_on_bushing,
    damage.end_play,
    damage.flat_spot,
    adjuster.cushion_settled,
    shoes.shoe_bolts,
    rubber.cuts,
    rubber.lugs_torn,
    idlers.rail_scalloped,
    sprocket.teeth,
    bushing.reverse_drive_wear,
    first_limit.stops_first,
    lives.chain_out_of_step,
    lives.wheels_out_of_step,
    lives.in_step,
    rollers.flange_near_pin_boss,
    bushing.links_ahead,
    sprocket.in_step,
    chain.long_span,
    chain.even_growth,
    adjuster.ahead_of_pitch,
    adjuster.behind_pitch,
    adjuster.sag_out_of_range,
    adjuster.sag_not_valid,
    shoes.shoe_too_wide,
    shoes.re_grousered,
    limits.better_than_new,
    chart_doubts.stands_in,
    chart_doubts.another_make,
    chart_doubts.adapted_part,
    bushing.side_unknown,
    evidence.impact_decides,
    evidence.assumed_decides,
    evidence.gauge_past_calibration,
    first_limit.hours_left_unknown,
    evidence.hours_by_word,
    evidence.not_seen,
)


def findings(so_far: SoFar) -> tuple[Finding, ...]:
    """All findings on a machine: `act`, then `watch`, then `note`; within these in the order of the table."""
    found = [finding for check in CHECKS for finding in check(so_far)]
    found += left_over(so_far, found)
    order = list(Severity)
    return heed_acts(sorted(found, key=lambda finding: order.index(finding.severity)))
