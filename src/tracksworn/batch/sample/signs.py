"""What was seen on one walk. How often is common practice, without source: leaks and play come with wear."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tracksworn.batch.sample.dice import Dice
from tracksworn.batch.sample.kinds import MachineKind
from tracksworn.batch.sample.walk import Walk
from tracksworn.inspection.vocabulary import Component, Grade, Layout, ObservedPlace, Side, Sign, Unit

C, S = Component, Sign


@dataclass(frozen=True, slots=True)
class Seen:
    """One observation; a photo of it stands in the file where `photo` names one."""

    at: str
    seen: Sign
    grade: Grade
    note: str | None = None
    size: str | None = None

    def lines(self, photo: str | None = None) -> Iterator[str]:
        """As it stands in the file."""
        yield f"  - at: {self.at}"
        yield f"    seen: {self.seen}"
        yield f"    grade: {self.grade}"
        if self.size:
            yield f"    size: {self.size}"
        if self.note:
            yield f"    note: {self.note}"
        if photo:
            yield f"    photos: [{photo}]"


@dataclass(frozen=True, slots=True)
class _Habit:
    """How often a sign is seen on one side: on a new part, and how much more often on one at its limit."""

    part: Component | ObservedPlace
    sign: Sign
    new: float
    worn: float = 0.0
    notes: tuple[str, ...] = ()
    mild: bool = True
    layouts: frozenset[Layout] = frozenset(Layout)
    numbered: bool = False  # on one link, or beside one


_STEEL: Final = frozenset(Layout) - {Layout.RUBBER}
_DOZERS: Final = frozenset({Layout.ELEVATED_SPROCKET, Layout.OVAL})
_RUBBER: Final = frozenset({Layout.RUBBER})
_HABITS: Final = (
    _Habit(
        C.FRONT_IDLER, S.SIDE_WEAR, 0.02, 0.14, ("Inner face of the rim bright.", "Outer face more than the inner.")
    ),
    _Habit(C.FRONT_IDLER, S.LEAK, 0.01, 0.03, ("Dust sticks in a ring round the outer seal.",)),
    _Habit(C.SPROCKET, S.WORN_TO_A_POINT, 0.0, 0.35, ("Tips sharp all round.", "Tips sharp, hooked forwards.")),
    _Habit(C.SPROCKET, S.REVERSE_WEAR, 0.02, 0.08, ("Reverse flanks bright; it backs a good deal.",), layouts=_DOZERS),
    _Habit(C.SPROCKET, S.PACKED, 0.04, 0.0, ("Mud to the hub.",)),
    _Habit(C.LINK, S.RAIL_SCALLOPED, 0.0, 0.07, ("Waves in step with the joints.",), layouts=_STEEL, numbered=True),
    _Habit(
        C.LINK, S.RAIL_SPALLING, 0.0, 0.06, ("Flakes along the inner edge of the rail.",), layouts=_STEEL, numbered=True
    ),
    _Habit(C.SHOE, S.BENT, 0.05, 0.05, ("At the outer rear corner.",), layouts=_STEEL, numbered=True),
    _Habit(ObservedPlace.SHOE_BOLT, S.BOLT_MISSING, 0.03, 0.04, ("One of four.",), layouts=_STEEL, numbered=True),
    _Habit(
        ObservedPlace.SHOE_BOLT, S.LOOSE, 0.03, 0.04, ("Rust runs from under the head.",), layouts=_STEEL, numbered=True
    ),
    _Habit(
        ObservedPlace.PIN,
        S.PIN_WALK,
        0.0,
        0.03,
        ("Stands out of the link by its chamfer.",),
        layouts=_STEEL,
        numbered=True,
    ),
    _Habit(ObservedPlace.GUARD, S.BENT, 0.05, 0.03, ("Sprung outwards; rubs on the link sides.",), layouts=_STEEL),
    _Habit(ObservedPlace.ADJUSTER_SEAL, S.LEAK, 0.02, 0.03, ("Grease at the relief. Not touched.",), layouts=_STEEL),
    _Habit(
        ObservedPlace.PIVOT_SHAFT, S.LEAK, 0.01, 0.03, ("Old oil below the cover, dry to the finger.",), layouts=_DOZERS
    ),
    _Habit(
        ObservedPlace.TRACK_FRAME, S.CRACK, 0.0, 0.02, ("In the weld behind the idler block, a hand long.",), mild=False
    ),
    _Habit(ObservedPlace.TRACK_FRAME, S.BENT, 0.0, 0.015, ("Out of line to the eye from the front.",)),
    _Habit(C.LUG, S.CUT, 0.05, 0.12, ("Across two lugs, not to the cord.",), layouts=_RUBBER),
    _Habit(C.LUG, S.LUG_TORN, 0.02, 0.08, ("Torn at its root.",), layouts=_RUBBER),
    _Habit(C.LUG, S.CORD_SHOWING, 0.0, 0.12, ("Steel bare at the outer edge, rusted.",), mild=False, layouts=_RUBBER),
    _Habit(C.DRIVE_LUG, S.CUT, 0.02, 0.05, ("Chipped at the driven face.",), layouts=_RUBBER),
)
_LEAKS: Final = (
    "Oil at the inner seal and down the tread.",
    "Weeping at the inner seal, *not* dripping.",
    "Fresh oil.",
)


def seen_on(walk: Walk) -> tuple[Seen, ...]:
    """All observations of a walk, most of them of what is wrong, some that one looked and saw nothing."""
    of_habit = tuple(_of_habit(walk))
    nothing = _nothing_seen(walk, {each.at for each in of_habit})
    return (*_of_rollers(walk), *of_habit, *_of_dry_joint(walk), *_of_links(walk), *nothing)


def _visible(walk: Walk) -> tuple[Side, ...]:
    return tuple(side for side in Side if side is not walk.hidden)


def _grade(dice: Dice, mild: bool) -> Grade:
    return dice.weighed({Grade.SLIGHT: 6.0 if mild else 0.5, Grade.MARKED: 3.0, Grade.SEVERE: 0.6 if mild else 2.0})


def _of_rollers(walk: Walk) -> Iterator[Seen]:
    for side in _visible(walk):
        for component, count in _rollers(walk.machine.kind).items():
            for position in range(1, count + 1):
                if walk.guarded is side and component is C.BOTTOM_ROLLER and 2 < position < count - 1:
                    continue
                yield from _of_roller(walk, component, side, position)


def _rollers(kind: MachineKind) -> dict[Component, int]:
    return {C.BOTTOM_ROLLER: kind.bottom_rollers, C.TOP_ROLLER: kind.top_rollers}


def _of_roller(walk: Walk, component: Component, side: Side, position: int) -> Iterator[Seen]:
    """Oil that left a roller does not come back: what leaked at one hour leaks at all later ones."""
    machine, at = walk.machine, f"{side} {component} {position}"
    dice = machine.dice("roller sign", component, side, position)
    worn = machine.percent(component, side, walk.hours, position)
    leaks, plays, sticks = (dice.between(0.0, 1.0) for _ in range(3))
    if leaks < 0.004 + 0.05 * worn / 100.0:
        yield Seen(at, S.LEAK, _grade(dice, mild=True), dice.among(_LEAKS))
    elif plays < 0.02 * worn / 100.0:
        size = "3/32 in" if walk.unit is Unit.INCH else f"{dice.between(1.2, 3.0):.1f} mm"
        yield Seen(at, S.END_PLAY, _grade(dice, mild=True), "Levered along its shaft with a bar.", size)
    elif component is C.TOP_ROLLER and sticks < 0.03 * worn / 100.0:
        yield Seen(at, S.SEIZED, Grade.SEVERE, "Does not turn with the track.")
        yield Seen(at, S.FLAT_SPOT, Grade.MARKED)


def _of_habit(walk: Walk) -> Iterator[Seen]:
    machine = walk.machine
    for side in _visible(walk):
        for habit in _HABITS:
            dice = machine.dice("sign", walk.index, side, habit.part, habit.sign)
            worn = _worn(walk, habit.part, side)
            if machine.kind.layout not in habit.layouts or not dice.chance(habit.new + habit.worn * worn / 100.0):
                continue
            number = f" {dice.whole(2, machine.links(side, walk.hours) - 1)}" if habit.numbered else ""
            note = dice.among(habit.notes) if dice.chance(0.75) else None
            yield Seen(f"{side} {habit.part}{number}", habit.sign, _grade(dice, habit.mild), note)


def _worn(walk: Walk, part: Component | ObservedPlace, side: Side) -> float:
    chain = C.LUG if walk.machine.kind.layout is Layout.RUBBER else C.LINK
    component = part if part in walk.machine.rates else chain
    assert isinstance(component, Component)
    worn = walk.machine.percent(component, side, walk.hours)
    return worn if component is not C.SPROCKET or worn > 60.0 else 0.0


def _of_dry_joint(walk: Walk) -> Iterator[Seen]:
    dry = walk.machine.dry_joint
    if dry and dry.side is not walk.hidden and walk.machine.dice("dry joint seen", walk.index).chance(0.7):
        note = "Pin end blued by heat; rust-red dust at the seal lip."
        yield Seen(f"{dry.side} pin {dry.joint}", S.HEAT_MARK, Grade.MARKED, note)


def _of_links(walk: Walk) -> Iterator[Seen]:
    machine = walk.machine
    for side in _visible(walk):
        if machine.kind.layout is not Layout.RUBBER and machine.links(side, walk.hours) < machine.kind.links:
            yield Seen(f"{side} link", S.LINK_TAKEN_OUT, Grade.SLIGHT, "Newer master link than its neighbours.")


def _nothing_seen(walk: Walk, told: set[str]) -> Iterator[Seen]:
    dice = walk.machine.dice("nothing seen", walk.index)
    for side in _visible(walk):
        if dice.chance(0.5) and f"{side} {ObservedPlace.TRACK_FRAME}" not in told:
            yield Seen(f"{side} {ObservedPlace.TRACK_FRAME}", S.CRACK, Grade.NONE)
