"""The readings of one walk, as an inspector writes them down: a size, an estimate by eye, or why there is none."""

from collections.abc import Iterator
from typing import Final

from tracksworn.batch.sample.charts import SPAN, places, travelling, wearing
from tracksworn.batch.sample.dice import Dice
from tracksworn.batch.sample.lengths import length, lengths
from tracksworn.batch.sample.walk import OTHER_GAUGE, Walk
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS, Component, Layout, Side, Unit

C = Component
_SECOND_PLACE: Final = {C.BUSHING: 0.5, C.FRONT_IDLER: 0.92, C.REAR_IDLER: 0.95}
"""What the second place of a part has worn of what the first has."""
_WHY_NOT: Final = {
    C.SPROCKET: ("mud in the teeth", "cover plate fitted"),
    C.TOP_ROLLER: ("packed with clay", "mud"),
    C.PITCH: ("no slack to draw out", "track not moved"),
    C.REAR_IDLER: ("mud", "guard fitted"),
}
_MUD: Final = ("mud", "packed with clay", "could not be reached")
_INSPECTOR: Final = 1.3
"""Points, the standard deviation of how one inspector measures one component, both sides alike."""


def reading_lines(walk: Walk) -> Iterator[str]:
    """The lines under `readings:`."""
    for component in wearing(walk.machine.kind):
        yield from _component(walk, component)
    if walk.measures:
        yield from _travels(walk)
        yield from _temperatures(walk)


def joints_of(walk: Walk, component: Component) -> tuple[int, ...]:
    """Where a chain is sampled: spread round it, none beside the master joint, the same at every inspection."""
    dice = walk.machine.dice("joints", component is C.PITCH)
    count, links = dice.whole(3, 4), walk.machine.kind.links - 2
    first = dice.whole(3, 6)
    last = links - SPAN if component is C.PITCH else links
    return tuple(first + (last - first) * step // count for step in range(count))


def _component(walk: Walk, component: Component) -> Iterator[str]:
    said = {side: _Side(walk, component, side) for side in Side}
    measured = [one for one in said.values() if one.measured]
    yield f"  {component}:"
    if measured:
        yield f"    with: {walk.gauge(component)}"
        if component in CHAINS or component is C.PITCH:
            yield f"    joints: {', '.join(map(str, joints_of(walk, component)))}"
    for one in said.values():
        yield from one.lines()


class _Side:
    """What is said of one side of a component."""

    def __init__(self, walk: Walk, component: Component, side: Side) -> None:
        self._walk, self._component, self._side = walk, component, side
        self._machine = walk.machine
        self._dice = self._machine.dice("reading", walk.index, component, side)
        self._bias = self._machine.dice("inspector", walk.index, component).bell(0.0, _INSPECTOR)
        fate = self._dice.between(0.0, 1.0)
        by_eye = 0.4 if component is C.SPROCKET else 0.05
        self._seen = fate >= (0.04 if walk.measures else 0.09)
        if walk.hidden is side:
            self._seen = component in (C.SHOE, C.LUG)
        self.measured = walk.measures and self._seen and walk.hidden is not side and fate >= by_eye + 0.04
        self._gauge = walk.gauges[walk.gauge(component)]

    def lines(self) -> Iterator[str]:
        """What stands in the file for it."""
        if not self._seen:
            yield self._line(f"not seen ({self._why_not()})")
        elif self._component in ROLLERS:
            yield from self._rollers()
        elif not self.measured:
            yield self._line(self._by_eye(self._percent()))
        elif named := places(self._machine.kind, self._component):
            yield from self._by_place(named)
        else:
            yield self._line(self._sizes())

    def _line(self, said: str) -> str:
        return f"    {self._side}: {said}"

    def _why_not(self) -> str:
        if self._walk.hidden is self._side:
            return self._walk.why_hidden
        return self._dice.among(_WHY_NOT.get(self._component, _MUD))

    def _percent(self, position: int | None = None) -> float:
        return self._machine.percent(self._component, self._side, self._walk.hours, position)

    def _size(self, percent: float) -> float:
        """What a gauge shows at that percent worn, in mm, before it is rounded to its step."""
        size = wearing(self._machine.kind)[self._component].at(percent + self._bias)
        return size + self._dice.bell(0.0, (self._gauge.accuracy or self._gauge.step) / 3.0)

    def _sizes(self, part: float = 1.0) -> str:
        """At every joint of a chain; of what is judged singly twice on the sprocket, else once."""
        if self._component in CHAINS or self._component is C.PITCH:
            worn = [
                self._machine.scattered(self._component, self._side, self._walk.hours, joint)
                for joint in joints_of(self._walk, self._component)
            ]
        else:
            again = 2 if self._component is C.SPROCKET else 1
            worn = [self._percent() + self._dice.bell(0.0, 0.8) for _ in range(again)]
        return lengths([self._size(percent * part) for percent in worn], self._gauge.step, self._walk.unit)

    def _by_place(self, named: tuple[str, ...]) -> Iterator[str]:
        yield f"    {self._side}:"
        for place, part in zip(named, (1.0, _SECOND_PLACE[self._component]), strict=True):
            yield f"      {place}: {self._sizes(part)}"

    def _rollers(self) -> Iterator[str]:
        kind = self._machine.kind
        count = kind.bottom_rollers if self._component is C.BOTTOM_ROLLER else kind.top_rollers
        worn = [self._percent(position) + self._dice.bell(0.0, 0.8) for position in range(1, count + 1)]
        guarded = self._component is C.BOTTOM_ROLLER and self._walk.guarded is self._side
        if guarded:
            ends = (1, 2, count - 1, count)
            entries = ", ".join(f"{position}: {self._value(worn[position - 1])}" for position in ends)
            yield self._line(f"{{{entries}, others: not seen (guard fitted)}}")
        elif not self.measured:
            yield self._line(self._by_eye(max(worn)))
        else:
            sizes = [None if count > 2 and self._dice.chance(0.02) else self._size(percent) for percent in worn]
            yield self._line(lengths(sizes, self._gauge.step, self._walk.unit))

    def _value(self, percent: float) -> str:
        if not self.measured:
            return self._by_eye(percent)
        return length(self._size(percent), self._gauge.step, self._walk.unit)

    def _by_eye(self, percent: float) -> str:
        """Tens of percent, as an eye that is a little off would put it."""
        return by_eye(self._dice, self._dice.bell(percent, self._walk.person.eye))


def by_eye(dice: Dice, percent: float) -> str:
    """An estimate in tens, in one of the four ways."""
    tens = max(0, min(100, 10 * int(percent / 10.0 + 0.5)))
    if tens >= 90 or (tens >= 30 and dice.chance(0.06)):
        return f"by eye at least {min(tens, 90)} %"
    if tens <= 10 or dice.chance(0.05):
        return f"by eye at most {tens + 10} %"
    if dice.chance(0.25):
        return f"by eye about {tens} %"
    return f"by eye {tens - 10} to {tens + 10} %"


def _travels(walk: Walk) -> Iterator[str]:
    machine, kind = walk.machine, walk.machine.kind
    travels, step = travelling(kind), walk.gauges[OTHER_GAUGE].step
    sides = [side for side in Side if side is not walk.hidden]

    def line(component: Component, sizes: dict[Side, float], more: str = "") -> str:
        said = ", ".join(f"{side}: {length(size, step, walk.unit)}" for side, size in sizes.items())
        return f"  {component}: {{with: {OTHER_GAUGE}, {said}{more}}}"

    if travels.adjuster:
        yield line(C.ADJUSTER, {side: machine.rod(side, walk.hours) for side in sides})
    if travels.cushion:
        start, end = travels.cushion
        used = min(0.95, 0.2 * walk.hours / machine.kind.life)
        yield line(C.CUSHION, dict.fromkeys(sides, start + used * (end - start)))
    low, high = travels.sag
    slack = machine.dice("sag", walk.index)
    middle = 1.25 * high if slack.chance(0.12) else slack.between(low, high)
    raised = kind.layout in (Layout.EXCAVATOR, Layout.RUBBER)
    how = "raised on blocks" if raised else "coasting forward"
    yield line(
        C.SAG, {side: slack.bell(middle, 0.04 * (high - low)) for side in sides}, f", stopped: {how}, packed: no"
    )


def _temperatures(walk: Walk) -> Iterator[str]:
    """Taken where a machine came in warm; a dry joint shows."""
    machine = walk.machine
    dice, dry = machine.dice("temperature", walk.index), machine.dry_joint
    if walk.unit is Unit.INCH or not machine.kind.is_dozer or not dice.chance(0.7 if dry else 0.12):
        return
    ambient, joints = dice.whole(6, 24), joints_of(walk, C.LINK)
    if dry:
        joints = tuple(sorted({*joints, dry.joint}))
    yield "  joint temperature:"
    yield f"    joints: {', '.join(map(str, joints))}"
    for side in Side:
        hot = [dry is not None and dry.side is side and joint == dry.joint for joint in joints]
        degrees = [ambient + dice.whole(10, 16) + (dice.whole(18, 40) if one else 0) for one in hot]
        yield f"    {side}: {', '.join(map(str, degrees))} C"
    yield f"    after: {dice.among((10, 15, 20, 30))} min"
    yield f"    ambient: {ambient} C"
