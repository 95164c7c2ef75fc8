"""One invented machine: how it worked, what was renewed when, and so how worn each part is at any hour of its life.

What hangs together on a real one does here, by common practice and without source: bushing and sprocket wear as one on
sealed track, sprocket and pitch on open track; a turned bushing begins anew and mostly brings new sprockets; the end
rollers of a frame wear first; the adjuster follows the pitch; rock takes grousers, wet sand takes rollers and bushings.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from tracksworn.batch.sample.charts import CASE_ENDS, CASE_TIMES, SPAN, has_case, travelling, wearing
from tracksworn.batch.sample.dice import Dice
from tracksworn.batch.sample.kinds import KINDS, MachineKind
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS, Component, Layout, Side, Track

C = Component
ON_THE_CHAIN: Final = frozenset({*CHAINS, C.PITCH, C.SPROCKET})
SALE: Final = date(2031, 5, 20)
MOST: Final = 128.0
"""No part is run further: it comes off, or the machine stands."""
_NEVER_SCATTERS: Final = frozenset({C.SPROCKET, C.FRONT_IDLER, C.REAR_IDLER, *ROLLERS})
_GROUNDS: Final = {
    "abrasive, wet": 4.0,
    "abrasive": 3.0,
    "rock": 2.0,
    "rock, abrasive": 1.0,
    "firm": 4.0,
    "soft, wet": 2.0,
    "soft": 1.0,
}
_LIFE_ON: Final = {"abrasive": 0.8, "rock": 0.85, "soft": 1.15, "wet": 0.95, "firm": 1.0}


@dataclass(frozen=True, slots=True)
class DryJoint:
    """A joint that lost its oil: its span is longer than all others, and it runs hot."""

    side: Side
    joint: int
    points: float


@dataclass(frozen=True, slots=True)
class Renewed:
    """A single roller that was renewed."""

    component: Component
    side: Side
    position: int
    at: float


@dataclass(frozen=True, slots=True)
class SampleMachine:
    """Hours are machine hours; rates are lives of the chain that a component uses up in one."""

    key: str
    kind: MachineKind
    serial: str
    year: int
    hours: float
    hours_per_week: float
    ground: str
    impact: str
    life: float
    run: float  # lives after which its owner renews
    chain_at: float
    wheels_at: float
    turned_at: float | None
    rates: Mapping[Component, float]
    lean: float  # the part by which the left wears faster than the right
    ends: float  # the part by which end rollers wear faster than those between
    renewed: Renewed | None
    dry_joint: DryJoint | None
    meter_replaced_at: float | None

    def dice(self, *words: object) -> Dice:
        """Chance of its own for whatever the words name."""
        return Dice(self.key, *words)

    def began(self, component: Component, side: Side | None = None, position: int | None = None) -> float:
        """Machine hours at which that part went on."""
        one = self.renewed
        if one and (one.component, one.side, one.position) == (component, side, position):
            return one.at
        return self.chain_at if component in ON_THE_CHAIN else self.wheels_at

    def percent(self, component: Component, side: Side, hours: float, position: int | None = None) -> float:
        """Points of percent worn of that part at an hour of the machine's life, without scatter from joint to joint."""
        worn = 100.0 * self._since(component, side, hours, position) * self.rates[component] / self.life
        worn *= 1.0 + (self.lean if side is Side.LEFT else -self.lean) / 2.0
        if position is not None:
            worn *= self._place_in_row(component, position)
        if component is C.LINK and has_case(self.kind):
            worn = _below_the_case(worn)
        return min(worn, MOST)

    def scattered(self, component: Component, side: Side, hours: float, at: int) -> float:
        """The same at one joint, one span, or one place along a rubber track; its scatter is its own for life."""
        worn = self.percent(component, side, hours)
        if component in _NEVER_SCATTERS:
            return worn
        dry = self.dry_joint
        if component is C.PITCH and dry and dry.side is side and at <= dry.joint < at + SPAN:
            worn += dry.points
        return worn + self.dice("joint", component, side, at).bell(0.0, 1.2 + 0.013 * worn)

    def rod(self, side: Side, hours: float) -> float:
        """How much of the adjuster's rod shows, in mm: it follows the pitch until a link is taken out."""
        travel = travelling(self.kind).adjuster
        assert travel is not None
        start, end = travel
        pitch = wearing(self.kind)[C.PITCH]
        grown = (pitch.at(self.percent(C.PITCH, side, hours)) - pitch.new) / SPAN * self.links(side, hours) / 2.0
        rod = start + grown + self.dice("rod", side).bell(0.0, 0.02 * (end - start))
        return max(min(rod - self._shortened(side, hours) * self.kind.pitch / 2.0, 0.99 * end), start / 2.0)

    def links(self, side: Side, hours: float) -> int:
        """Links of that side's chain."""
        return self.kind.links - self._shortened(side, hours)

    def _shortened(self, side: Side, hours: float) -> int:
        """Whether a link was taken out, as is done where the rod is at its end."""
        worn = self.percent(C.PITCH, side, hours) if C.PITCH in self.rates else 0.0
        return int(worn > 92.0 and self.dice("link taken out", side).chance(0.4))

    def _since(self, component: Component, side: Side, hours: float, position: int | None) -> float:
        at = self.began(component, side, position)
        if at > hours and position is not None:
            at = self.began(component)
        if component in (C.BUSHING, C.SPROCKET) and self.turned_at is not None and self.turned_at <= hours:
            renewed = component is C.BUSHING or self.dice("sprocket with the turn").chance(0.75)
            at = self.turned_at if renewed else at
        since = hours - at
        return since if since >= 0.0 else max(0.0, since + self.life * self.run)  # of the one that was on before

    def _place_in_row(self, component: Component, position: int) -> float:
        count = self.kind.bottom_rollers if component is C.BOTTOM_ROLLER else self.kind.top_rollers
        from_middle = abs(2.0 * position - count - 1.0) / max(1, count - 1)
        own = self.dice("roller", component, position).bell(0.0, 0.03)
        return 1.0 + own + self.ends * (from_middle * from_middle - 0.33)


def _below_the_case(worn: float) -> float:
    even = worn / 100.0 * (CASE_ENDS + (100.0 - CASE_ENDS) / CASE_TIMES)
    return even if even <= CASE_ENDS else CASE_ENDS + (even - CASE_ENDS) * CASE_TIMES


def sample_machine(seed: int, number: int) -> SampleMachine:
    """The machine of that number in the sale of that seed."""
    dice = Dice(seed, number)
    kind = dice.weighed({kind: kind.weight for kind in KINDS})
    ground = dice.weighed(_GROUNDS)
    life = kind.life * dice.between(0.85, 1.2)
    for word, part in _LIFE_ON.items():
        life *= part if word in ground else 1.0
    week = max(6.0, round(kind.life / 4.5 / 48.0 * dice.between(0.5, 1.4)))
    age = dice.between(0.4, 4.0) + dice.between(0.0, 7.0)
    hours = float(round(age * 50.0 * week))
    run = dice.between(0.85, 1.08) if dice.chance(0.85) else dice.between(1.15, 1.4)
    chain_at, wheels_at = _last_renewal(dice, hours, life * run), _last_renewal(dice, hours, 1.15 * life * run)
    rates = _rates(kind, dice, ground)
    return SampleMachine(
        key=f"{seed}/{number}",
        kind=kind,
        serial=_serial(kind, dice),
        year=(SALE - timedelta(days=365.25 * age)).year,
        hours=hours,
        hours_per_week=week,
        ground=ground,
        impact="high" if "rock" in ground else "low",
        life=life,
        run=run,
        chain_at=chain_at,
        wheels_at=wheels_at,
        turned_at=_turned(kind, dice, hours, chain_at, life / rates[C.BUSHING]) if C.BUSHING in rates else None,
        rates=rates,
        lean=dice.bell(0.0, 0.03) if dice.chance(0.87) else dice.among((-1, 1)) * dice.between(0.12, 0.3),
        ends=0.2 if kind.layout is Layout.ELEVATED_SPROCKET else 0.12,
        renewed=_renewed(kind, dice, hours, wheels_at) if dice.chance(0.12) else None,
        dry_joint=_dry_joint(kind, dice),
        meter_replaced_at=float(round(hours * dice.between(0.3, 0.8))) if dice.chance(0.04) else None,
    )


def _last_renewal(dice: Dice, hours: float, life: float) -> float:
    """Hours at which parts went on that last as long: nought, or the last of all renewals."""
    at = 0.0
    while True:
        following = at + life * dice.between(0.9, 1.1)
        if following >= hours:
            return float(round(at))
        at = following


def _rates(kind: MachineKind, dice: Dice, ground: str) -> Mapping[Component, float]:
    """How many chain lives of each component one life of the chain takes."""
    rocky = 0.2 if "rock" in ground else 0.0
    rollers = dice.between(0.65, 0.95) + (0.1 if "abrasive" in ground else 0.0)
    rates = {
        C.FRONT_IDLER: dice.between(0.5, 0.8),
        C.BOTTOM_ROLLER: rollers,
        C.TOP_ROLLER: rollers * dice.between(0.75, 1.1),
    }
    if kind.layout is Layout.RUBBER:
        return rates | {C.LUG: 1.0, C.DRIVE_LUG: dice.between(0.5, 0.9), C.SPROCKET: dice.between(0.5, 0.9)}
    bushing, pitch = _chain_rates(kind, dice)
    with_chain = bushing if kind.track in (Track.SEALED_AND_LUBRICATED, Track.ROTATING_BUSHING) else pitch
    rates |= {
        C.LINK: 1.0,
        C.BUSHING: bushing,
        C.PITCH: pitch,
        C.SHOE: dice.between(0.7, 1.0) + rocky,
        C.SPROCKET: with_chain * dice.between(0.8, 1.1),
    }
    if kind.layout is Layout.ELEVATED_SPROCKET:
        rates[C.REAR_IDLER] = rates[C.FRONT_IDLER] * dice.between(0.8, 1.0)
    return rates


def _chain_rates(kind: MachineKind, dice: Dice) -> tuple[float, float]:
    """Those of bushing and pitch, by the kind of track."""
    bushing = dice.between(1.25, 1.8) if kind.layout is not Layout.EXCAVATOR else dice.between(0.8, 1.1)
    match kind.track:
        case Track.SEALED_AND_LUBRICATED:
            return bushing, dice.between(0.12, 0.3)
        case Track.ROTATING_BUSHING:
            return dice.between(0.6, 0.9), dice.between(0.12, 0.3)
        case Track.GREASED:
            return bushing, dice.between(0.65, 0.95)
        case _:
            return bushing, dice.between(0.95, 1.2)


def _turned(kind: MachineKind, dice: Dice, hours: float, chain_at: float, life: float) -> float | None:
    """Machine hours at which the bushings were turned, where their owner had it done when they were due."""
    at = chain_at + life * dice.between(0.85, 1.05)
    return float(round(at)) if kind.turns and at < hours and dice.chance(0.7) else None


def _renewed(kind: MachineKind, dice: Dice, hours: float, wheels_at: float) -> Renewed:
    position, side = dice.whole(1, kind.bottom_rollers), dice.among(tuple(Side))
    return Renewed(C.BOTTOM_ROLLER, side, position, float(round(dice.between(wheels_at, hours))))


def _dry_joint(kind: MachineKind, dice: Dice) -> DryJoint | None:
    if kind.track is not Track.SEALED_AND_LUBRICATED or not dice.chance(0.08):
        return None
    return DryJoint(dice.among(tuple(Side)), dice.whole(6, kind.links - 6), dice.between(45.0, 110.0))


def _serial(kind: MachineKind, dice: Dice) -> str:
    stem = "".join(sign for sign in kind.model.upper() if sign.isalnum())
    return f"{stem}-{dice.whole(10_000, 99_999)}"
