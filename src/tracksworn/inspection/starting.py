"""Starting files: commented, whole as they stand, and saying nothing that nobody has looked at.

What is unknown stays behind a `#`; what must be there says in plain words that it is still to be filled in, so that
a file sent too early shows it, and no invented size or price can slip into a document.
"""

from tracksworn.inspection.vocabulary import Component, Kind, Layout, LimitMeans

_CHAIN = (Component.LINK, Component.BUSHING, Component.PITCH, Component.SHOE, Component.SPROCKET, Component.FRONT_IDLER)
_ROLLERS = (Component.BOTTOM_ROLLER, Component.TOP_ROLLER)
_STEEL = (*_CHAIN, *_ROLLERS, Component.ADJUSTER, Component.SAG)

COMPONENTS: dict[Layout, tuple[Component, ...]] = {
    Layout.ELEVATED_SPROCKET: (
        *_CHAIN,
        Component.REAR_IDLER,
        *_ROLLERS,
        Component.ADJUSTER,
        Component.CUSHION,
        Component.SAG,
    ),
    Layout.OVAL: _STEEL,
    Layout.EXCAVATOR: _STEEL,
    Layout.TRACK_LOADER: _STEEL,
    Layout.RUBBER: (
        Component.LUG,
        Component.DRIVE_LUG,
        Component.SPROCKET,
        Component.FRONT_IDLER,
        *_ROLLERS,
        Component.ADJUSTER,
        Component.SAG,
    ),
}
"""What each layout has, in the order of a walk along it."""

_MEASURE: dict[Component, str] = {
    Component.LINK: "rail height, shoe face to rail top, at the lowest place between joints",
    Component.BUSHING: "outside diameter, across the worn place",
    Component.PITCH: "pin end to the same edge of the fifth pin, slack drawn out, clear of the master joint",
    Component.SHOE: "grouser height, plate to tip, a third in from the outer end",
    Component.LUG: "lug height, carcass to tread, at mid-width",
    Component.DRIVE_LUG: "width along the track at its root",
    Component.SPROCKET: "tooth thickness at its base",
    Component.FRONT_IDLER: "tread diameter",
    Component.REAR_IDLER: "tread diameter",
    Component.BOTTOM_ROLLER: "tread diameter",
    Component.TOP_ROLLER: "tread diameter",
    Component.ADJUSTER: "rod showing",
    Component.CUSHION: "gap at the stop of the bogie",
    Component.SAG: "straightedge along the upper run, at the lowest point",
}
_LIMIT_MEANS: dict[Component, LimitMeans] = {
    Component.LINK: LimitMeans.REBUILD,
    Component.BUSHING: LimitMeans.TURN,
    Component.SHOE: LimitMeans.REBUILD,
    Component.FRONT_IDLER: LimitMeans.REBUILD,
    Component.REAR_IDLER: LimitMeans.REBUILD,
    Component.BOTTOM_ROLLER: LimitMeans.REBUILD,
}
_READING_HINTS: dict[Component, tuple[str, ...]] = {
    Component.LINK: (
        "with: depth gauge",
        "joints: 4, 14, 24, 34        # counted from the master joint, none beside it",
    ),
    Component.BUSHING: (
        "with: caliper                # left and right may also go by place:",
        "left: {forward side: 58.1 mm, reverse side: 58.6 mm}",
    ),
    Component.PITCH: ("with: steel tape", "joints: 6, 18, 30            # the first joint of each span"),
    Component.BOTTOM_ROLLER: (
        "left: 151.5, 150.8, -, 152.0 mm                      # by position from the front, - not measured",
        "right: {1: 151.0 mm, others: not seen (guards fitted)}",
    ),
    Component.SAG: ("stopped: coasting forward    # how it came to rest, without which sag says nothing", "packed: no"),
}
_TRACK: dict[Layout, str] = dict.fromkeys(Layout, "sealed and lubricated") | {
    Layout.EXCAVATOR: "greased",
    Layout.RUBBER: "rubber",
}
_SHOE_KIND: dict[Layout, str] = {
    Layout.ELEVATED_SPROCKET: "single grouser",
    Layout.OVAL: "single grouser",
    Layout.EXCAVATOR: "triple grouser",
    Layout.TRACK_LOADER: "double grouser",
}
NOT_LOOKED_AT = "not seen (not looked at yet)"
TO_BE_FILLED_IN = frozenset({"to be filled in", "TO-BE-NUMBERED", "2000-01-01", "none (not chosen yet)"})
"""What stands in a starting file for what must be there; a file that still has it is warned of."""


def schema_name(kind: Kind) -> str:
    """The name under which the schema of that kind lies beside a starting file."""
    return f"{kind}.schema.json"


def starting_file(kind: Kind, layout: Layout) -> str:
    """A file of that kind to fill in, its schema named in the first line."""
    write = {
        Kind.INSPECTION: _inspection,
        Kind.CHART: _chart,
        Kind.LETTERHEAD: _letterhead,
        Kind.PRICES: _prices,
        Kind.TERMS: _terms,
    }[kind]
    return f"# yaml-language-server: $schema={schema_name(kind)}\n{write(layout)}"


def _inspection(layout: Layout) -> str:
    two_idlers, rubber = layout is Layout.ELEVATED_SPROCKET, layout is Layout.RUBBER
    links = "" if rubber else "  # links: {left: 40, right: 40}   # counted on each side\n"
    shoe = "width: 320 mm" if rubber else f"width: 610 mm, kind: {_SHOE_KIND[layout]}"
    machine = _MACHINE.format(
        layout=layout,
        suspension=f"rollers: {'suspended' if two_idlers else 'rigid'}",
        track=f"track: {_TRACK[layout]}",
        links=links,
        shoe=shoe,
    )
    readings = "".join(_reading(component) for component in COMPONENTS[layout])
    fitted, temperatures = ("", "") if rubber else (_FITTED_STEEL, _TEMPERATURES)
    facing = "the direction of travel" if two_idlers else "the idler end from the sprocket end"
    head = f"{_INSPECTION_HEAD}{machine}{_INSPECTION_FILES}{fitted}{_INSPECTION_READINGS.replace('{facing}', facing)}"
    return f"{head}{readings}{temperatures}{_INSPECTION_FOOT}"


def _reading(component: Component) -> str:
    hints = "".join(f"    # {hint}\n" for hint in _READING_HINTS.get(component, ()))
    head = f"  {component + ':':<17}# {_MEASURE[component]}\n"
    return f"{head}{hints}    left: {NOT_LOOKED_AT}\n    right: {NOT_LOOKED_AT}\n"


def _chart(layout: Layout) -> str:
    wear, travel = [], []
    for component in COMPONENTS[layout]:
        if component in (Component.ADJUSTER, Component.CUSHION):
            travel.append(f'  # {component}: {{measure: "{_MEASURE[component]}", start: 20 mm, end: 120 mm}}\n')
        elif component is Component.SAG:
            travel.append(f'  # {component}: {{measure: "{_MEASURE[component]}", range: 35 to 55 mm}}\n')
        else:
            wear.append(_chart_component(component))
    return f"{_CHART_HEAD.format(layout=layout)}{''.join(wear)}{_CHART_TRAVEL}{''.join(travel)}"


def _chart_component(component: Component) -> str:
    means = _LIMIT_MEANS.get(component, LimitMeans.REPLACE)
    extra = {
        Component.BUSHING: "    # places: [forward side, reverse side]\n    # turns: 1\n",
        Component.PITCH: "    # over: 4 links\n",
        Component.BOTTOM_ROLLER: "    # end play: 1.5 mm\n",
    }.get(component, "")
    return (
        f"  {component}:\n    measure: {_MEASURE[component]}\n"
        f"    # new: … mm\n    # limit: … mm\n    # limit means: {means}\n    # share: …\n{extra}"
    )


def _letterhead(_layout: Layout) -> str:
    return _LETTERHEAD


def _prices(layout: Layout) -> str:
    rubber = layout is Layout.RUBBER
    chain = "lug: {replace: {parts: 1900, labour: 5 h}}" if rubber else _CHAIN_PRICES
    return _PRICES.format(chain=chain)


def _terms(layout: Layout) -> str:
    return _TERMS.format(component="lug" if layout is Layout.RUBBER else "bushing")


_INSPECTION_HEAD = """\
# One machine, one inspector, one day. Fill in what you know, and leave the rest behind its #. To use such a line, take
# away the # and the blank behind it, so that the line begins in the same column as its neighbours.
# When done: tracksworn check THIS-FILE, then: tracksworn report THIS-FILE --to DIR
tracksworn: inspection 1
number: TO-BE-NUMBERED             # yours; documents are named by it: A-Z a-z 0-9 . _ -
# revision: 1                      # a changed report, with the two lines below; the first is 0
# replaces: 0
# because: serial number corrected
inspected: 2000-01-01              # year-month-day, to be filled in
# issued: 2031-04-19               # the date of the document, where it is a later one
# lot: 114                         # in a sale
# place: works yard, row 3
# purpose: condition statement before sale
# conditions: dry, tracks washed, standing on level concrete; machine not driven
# limits of access: belly guard fitted
inspector:
  name: to be filled in
  # organisation: your firm
  # qualification: 14 years in undercarriage repair
  # engaged by: who pays
  # interest in sale: none
"""

_MACHINE = """\
machine:
  maker: to be filled in
  model: to be filled in
  serial: to be filled in          # as on the plate
  # year: 2024
  # hours: 8412                    # or {{shown: 8412, known from: owner's word, meter replaced at: 6100}}
  # hours per week: 35             # makes dates of hours left
  # travel share: 15 %             # the part of the hours that is travel
  layout: {layout}
  # {suspension:<31}# suspended | rigid
  # {track:<31}# sealed and lubricated | greased | dry | rotating bushing | rubber
  # bottom rollers: 7              # a side
  # top rollers: 1
{links}  # shoe: {{{shoe}}}
  # ground: firm, wet              # words of: soft, firm, rock, abrasive, wet
  # impact: low                    # low | high: which limits of the chart apply
  # plate photo: photos/plate.jpg
  # meter photo: photos/meter.jpg
"""

_INSPECTION_FILES = """\
chart: none (not chosen yet)       # or the way to a wear chart: ../charts/machine.yaml
# letterhead: ../letterheads/firm.yaml
# prices: ../prices/2031.yaml
# terms: ../terms/cover.yaml       # of a warranty
# earlier: [../EARLIER-NUMBER/inspection.yaml]     # older inspections of this machine
# fitted:                          # machine hours at which each went on; what is not named is unknown
#   sprocket: {at: 5210, origin: another make}     # maker | another make | adapted | unknown
#   left bottom roller 3: {at: 7900, known from: invoice}     # invoice | stamp | owner's word | earlier inspection
#   front idler: original          # on since the machine was new
"""

_FITTED_STEEL = """\
#   link: {at: 5210}
#   bushing: {at: 5210, turned at: 7100}           # or `turned: no`
"""

_INSPECTION_READINGS = """\
# instruments:
#   depth gauge: {resolution: 0.05 mm, accuracy: 0.1 mm, calibrated: 2031-01-12, due: 2032-01-12, certificate: DG-118}
#   caliper: {resolution: 0.02 mm, accuracy: 0.05 mm}
#   steel tape: {resolution: 1 mm, accuracy: 0.5 mm}
#   ultrasonic gauge: {resolution: 0.01 mm, uncertainty: 0.05 mm, k: 2, velocity: 5920 m/s, checked on: 25 mm of steel}
# surface: {cleaned: yes, temperature: 18 C}

# A reading is one of:
#   131.2, 131.0, 130.8 mm         sizes with one unit at the end: mm, cm, in, ft; fractions as 5 3/16 in
#   by eye 30 to 50 %              by eye about 40 %, by eye at least 60 %, by eye at most 30 %
#   not seen (packed with clay)    and why
# In braces { } a value with commas needs quotes: {forward side: "58.1, 58.3 mm", reverse side: 58.6 mm}
# Left and right are as seen facing {facing}.
readings:
"""

_TEMPERATURES = """\
  # joint temperature: {joints: "3, 13, 23", left: "31, 33, 58 C", right: "30, 31, 31 C", after: 30 min, ambient: 18 C}
"""

_INSPECTION_FOOT = """\
# observations:
#   - at: left bottom roller 3     # side, component, position, place: as much of these as is known
#     seen: leak                   # leak, crack, side wear, …; or several: [leak, end play]
#     grade: slight                # none | slight | marked | severe; none says that one looked and saw nothing
#     note: Weeping at the inner seal.
#     photos: [photos/roller-l3.jpg]
# photos:
#   - {file: photos/left-side.jpg, shows: left, caption: Left track}
# notes: |
#   Free text, printed under Remarks.
"""

_CHART_HEAD = """\
# New sizes and limits of one track group, from the maker's or your own published figures.
# A component without sizes can be judged by eye. Sizes: 143.0 mm, 5 5/8 in; a range of `new` sets the tolerance too.
tracksworn: wear chart 1
title: to be filled in             # machine, pitch, kind of track
source: to be filled in            # where the sizes come from, with edition or date
layout: {layout}
# stands in for: maker and model   # where the chart was made for another machine than it is used for
# geometry: {{…}}                    # for the side elevation; without it typical proportions are drawn, and said so
# narrowest shoe: 560 mm

# Of each component, with sizes: `new`, `limit` and what the limit means: turn | rebuild | replace.
# `share` is its part of the undercarriage's replacement cost, both sides together; without any, typical shares serve.
# May be added: tolerance, new doubt, limit tolerance, spread, destroyed, case, table, ends, ways, places.
components:
"""

_CHART_TRAVEL = "  # With travel or range, not wear:\n"

_LETTERHEAD = """\
# How your documents look, and who answers for them.
tracksworn: letterhead 1
firm: to be filled in
# address: [4 Tannery Row, Withy Bridge]
# contact: {email: desk@firm.example, web: https://firm.example, telephone: 555 0100}
# mark: mark.svg                   # PNG, JPEG or SVG in this folder
accent: "#1f5c6b"                  # one dark colour; at least 4.5 : 1 against white
paper: A4                          # A4 | letter
units: mm                          # mm | in
language: en                       # de | en | es | fr, also with a country: de-AT, en-US
# standing terms: |
#   Printed before the signature. They add to the cautions and never replace them.
signatory: {name: to be filled in, title: Surveyor}
# assumed: {inspector: 1.4 points, seat: 0.8 points, basis: "your own repeat study"}
"""

_CHAIN_PRICES = """\
link: {replace: {parts: 11800, labour: 14 h}, rebuild: {parts: 5200, labour: 18 h, from: 40 %, until: 100 %}}
#   bushing: {replace: {parts: 4100, labour: 16 h}, turn: {parts: 600, labour: 12 h, until: 100 %}}"""

_PRICES = """\
# What work costs: of parts and labour a side, of rollers each. Noughts are to be filled in.
tracksworn: prices 1
as of: 2000-01-01                  # year-month-day, to be filled in
currency: EUR                      # a code of ISO 4217
labour per hour: 0
visit set-up: 0
track off: 0 h                     # a side, once a visit
# together: [[link, sprocket]]     # beside the rules that always hold
# components:
#   {chain}
#   bottom roller: {{replace: {{parts: 420, labour: 1.5 h}}, swap positions: {{labour: 2 h, until: 80 %}}}}
"""

_TERMS = """\
# What a warranty allows: percent worn against hours since fitted. As it stands it allows nothing.
tracksworn: terms 1
title: to be filled in
rule: guarded                      # guarded: uncertainty counts | simple: it does not
confidence: 95 %
undecided: measure again           # measure again | cover stands | administrator decides
hours within: 20 h                 # doubt about the hours
allowed:
  any: {{0: 0, 4000: 0}}
  # {component}: {{0: 10, 2500: 60, 4000: 90}}
"""
