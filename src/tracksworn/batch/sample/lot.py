"""One inspection as the file of an inspector."""

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import zip_longest
from typing import Final

from tracksworn.batch.sample.charts import INVENTED
from tracksworn.batch.sample.kinds import MachineKind
from tracksworn.batch.sample.lengths import INCH, length
from tracksworn.batch.sample.machine import ON_THE_CHAIN, SampleMachine
from tracksworn.batch.sample.readings import reading_lines
from tracksworn.batch.sample.shared import COVER, chart_path
from tracksworn.batch.sample.signs import seen_on
from tracksworn.batch.sample.walk import Gauge, Walk
from tracksworn.inspection.vocabulary import Component, Evidence, Layout, Side, Track, Unit

C = Component
_CONDITIONS: Final = (
    "dry, tracks washed, standing on level concrete; machine not driven",
    "damp, tracks scraped where measured; parked on gravel",
    "rain, tracks not washed; not moved",
    "dry and dusty; driven in from the row before",
    "frost, tracks scraped clean; standing on hard ground",
)
_NO_CHART: Final = "none (no figures for this make at hand)"


def lot_file(walk: Walk, lot: str | None, photos: tuple[str, ...] = ()) -> str:
    """The text of `inspection.yaml`. `photos` are the paths of pictures, from its folder."""
    return "".join(f"{line}\n" for line in _lines(walk, lot, photos))


def has_terms(walk: Walk) -> bool:
    """Whether a cover asks for conformity: of machines that were measured, and whose parts have a known beginning."""
    known = walk.evidence in (Evidence.INVOICE, Evidence.STAMP) and walk.hours_from is not Evidence.OWNERS_WORD
    return walk.index == 0 and walk.measures and known and walk.machine.dice("cover").chance(0.45)


def _lines(walk: Walk, lot: str | None, photos: tuple[str, ...]) -> Iterator[str]:
    yield f"# {walk.machine.kind.name}. Machine, firms and people are {INVENTED}."
    yield from _head(walk, lot)
    yield from _machine(walk)
    yield from _named(walk)
    if walk.measures:
        yield from _fitted(walk)
        yield from _gauges(walk)
    yield "readings:"
    yield from reading_lines(walk)
    yield from _observations(walk, photos)
    yield "notes: |"
    yield from _notes(walk)


def _head(walk: Walk, lot: str | None) -> Iterator[str]:
    dice, person = walk.machine.dice("head", walk.index), walk.person
    yield "tracksworn: inspection 1"
    yield f"number: {walk.number}"
    yield f"inspected: {walk.inspected}"
    if lot is not None:
        yield f"lot: {lot}"
    yield f"place: Oxbow Sale Yard, row {dice.whole(1, 24)}" if walk.index == 0 else "place: owner's yard"
    yield f"purpose: {'condition statement before sale' if walk.index == 0 else 'half-yearly look at wear'}"
    yield f"conditions: {dice.among(_CONDITIONS)}"
    if limits := _limits_of_access(walk):
        yield f"limits of access: {limits}"
    yield "inspector:"
    yield f"  name: {person.name}"
    yield f"  organisation: {person.organisation}"
    yield f"  qualification: {person.qualification}"
    yield f"  interest in sale: {person.interest}"


def _limits_of_access(walk: Walk) -> str:
    limits = []
    if walk.guarded:
        limits.append(f"{walk.guarded} roller guard fitted")
    if walk.hidden:
        limits.append(f"{walk.hidden} track {walk.why_hidden}")
    return "; ".join(limits)


def _machine(walk: Walk) -> Iterator[str]:
    machine, kind = walk.machine, walk.machine.kind
    yield "machine:"
    yield f"  maker: {kind.maker}"
    yield f"  model: {kind.model}"
    yield f"  serial: {machine.serial}"
    yield f"  year: {machine.year}"
    yield f"  hours: {_hours(walk)}"
    yield f"  hours per week: {machine.hours_per_week:.0f}"
    if kind.layout in (Layout.EXCAVATOR, Layout.RUBBER) and machine.dice("travel").chance(0.6):
        yield f"  travel share: {5 * machine.dice('share').whole(2, 8)} %"
    yield f"  layout: {kind.layout}"
    yield f"  rollers: {kind.suspension}"
    yield f"  track: {kind.track}"
    yield f"  bottom rollers: {kind.bottom_rollers}"
    yield f"  top rollers: {kind.top_rollers}"
    if kind.track is not Track.RUBBER:
        left, right = (machine.links(side, walk.hours) for side in Side)
        yield f"  links: {{left: {left}, right: {right}}}"
    yield f"  shoe: {{{_shoe(kind)}}}"
    yield f"  ground: {machine.ground}"
    yield f"  impact: {machine.impact}"


def _hours(walk: Walk) -> str:
    replaced = walk.machine.meter_replaced_at
    told = [] if walk.hours_from is Evidence.METER else [f"known from: {walk.hours_from}"]
    if replaced is not None and replaced < walk.hours:
        told.append(f"meter replaced at: {replaced:.0f}")
        return f"{{shown: {walk.hours - replaced:.0f}, {', '.join(told)}}}"
    return f"{{shown: {walk.hours:.0f}, {told[0]}}}" if told else f"{walk.hours:.0f}"


def _shoe(kind: MachineKind) -> str:
    width = length(kind.shoe_width, INCH if kind.unit is Unit.INCH else 1.0, kind.unit)
    return f"width: {width}, kind: {kind.shoe_kind}" if kind.shoe_kind else f"width: {width}"


def _named(walk: Walk) -> Iterator[str]:
    kind = walk.machine.kind
    charted = kind.charted and (walk.measures or walk.machine.dice("chart at hand").chance(0.8))
    yield f"chart: {chart_path(kind) if charted else _NO_CHART}"
    yield f"letterhead: ../letterheads/{walk.person.letterhead}.yaml"
    if charted and walk.machine.dice("prices").chance(0.7):
        yield f"prices: ../prices/{kind.prices}.yaml"
    if has_terms(walk):
        yield f"terms: ../terms/{COVER}.yaml"
    if walk.earlier:
        yield "earlier:"
        for one in reversed(walk.earlier):
            yield f"  - ../{one.number}/inspection.yaml"


def _fitted(walk: Walk) -> Iterator[str]:
    if walk.evidence is None:
        return
    machine = walk.machine
    parts = [_part(walk, component) for component in Component if component in machine.rates]
    one = machine.renewed
    if one and machine.began(one.component) < one.at <= walk.hours:
        parts.append(f"{one.side} {one.component} {one.position}: {{at: {one.at:.0f}, known from: invoice}}")
    if known := [part for part in parts if part]:
        yield "fitted:"
        for part in known:
            yield f"  {part}"


def _part(walk: Walk, component: Component) -> str | None:
    """When it went on; nothing where an earlier walk saw the one before."""
    machine, at = walk.machine, walk.machine.began(component)
    if at > walk.hours:
        return None
    turned = machine.turned_at is not None and machine.turned_at <= walk.hours
    with_turn = turned and component is C.SPROCKET and machine.dice("sprocket with the turn").chance(0.75)
    if with_turn and machine.turned_at is not None:
        at = machine.turned_at
    if component is C.BUSHING and machine.kind.turns:
        of = f"turned at: {machine.turned_at:.0f}" if turned else "turned: no"
        return f"bushing: {{at: {at:.0f}, known from: {walk.evidence}, {of}}}"
    if at == 0.0:
        return f"{component}: original"
    origin = _origin(machine, component)
    return f"{component}: {{at: {at:.0f}, known from: {walk.evidence}{origin}}}"


def _origin(machine: SampleMachine, component: Component) -> str:
    key = "chain" if component in ON_THE_CHAIN else component
    return ", origin: another make" if machine.dice("origin", key).chance(0.12) else ""


def _gauges(walk: Walk) -> Iterator[str]:
    yield "instruments:"
    dice = walk.machine.dice("calibrated", walk.inspected.year)
    calibrated = walk.inspected - timedelta(days=dice.whole(20, 340) + (60 if dice.chance(0.05) else 0))
    for name, gauge in walk.gauges.items():
        yield f"  {name}: {{{_gauge(gauge, calibrated, walk.unit)}}}"
    yield f"surface: {{cleaned: yes, temperature: {dice.whole(2, 26)} C}}"


def _gauge(gauge: Gauge, calibrated: date, unit: Unit) -> str:
    told = [f"resolution: {length(gauge.step, gauge.step, unit)}"]
    if gauge.accuracy is not None:
        told.append(f"accuracy: {gauge.accuracy:.2f} mm")
    if gauge.certificate:
        due = calibrated + timedelta(days=365)
        told.append(f"calibrated: {calibrated}, due: {due}, certificate: {gauge.certificate}")
    return ", ".join(told)


def _observations(walk: Walk, photos: tuple[str, ...]) -> Iterator[str]:
    """With a photo each, as far as there are any; further photos show the side they were taken from."""
    seen = seen_on(walk)
    if seen:
        yield "observations:"
    for one, photo in zip_longest(seen, photos[: len(seen)]):
        yield from one.lines(photo)
    if further := photos[len(seen) :]:
        yield "photos:"
        for index, photo in enumerate(further):
            side = tuple(Side)[index % 2]
            yield f"  - {{file: {photo}, shows: {side}, caption: {side.capitalize()} track as it stood}}"


def _notes(walk: Walk) -> Iterator[str]:
    one = walk.machine.renewed
    if walk.evidence and one and one.at <= walk.hours:
        yield f"  The owner had {one.side} {one.component} {one.position} renewed at **{one.at:.0f} hours**."
    if walk.hours_from is Evidence.OWNERS_WORD:
        yield f"  The hour meter's display is dark; {walk.hours:.0f} hours are the owner's word."
    yield f"  Machine, firms and people are {INVENTED}."
