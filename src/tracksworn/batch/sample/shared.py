"""What the lots of a sale share: charts, prices, terms and letterheads, all invented."""

from collections.abc import Mapping
from typing import Final

from tracksworn.batch.sample.charts import chart_file
from tracksworn.batch.sample.kinds import KINDS, MachineKind

SURVEY: Final = "millrace"
YARD: Final = "oxbow"
COVER: Final = "lantern-plan"


def shared_files() -> Mapping[str, bytes]:
    """Every shared file by its path from the folder of the sample."""
    texts = {
        **{f"charts/{kind.stem}.yaml": chart_file(kind) for kind in KINDS if kind.charted},
        **{f"prices/{name}.yaml": _prices(name, size) for name, size in _SIZES.items()},
        f"terms/{COVER}.yaml": _TERMS,
        f"letterheads/{SURVEY}.yaml": _SURVEY,
        f"letterheads/{SURVEY}.svg": _SURVEY_MARK,
        f"letterheads/{YARD}.yaml": _YARD,
        f"letterheads/{YARD}.svg": _YARD_MARK,
    }
    return {name: text.encode() for name, text in texts.items()}


def chart_path(kind: MachineKind) -> str:
    """Where an inspection finds the chart of its machine."""
    return f"../charts/{kind.stem}.yaml"


_SIZES: Final = {
    "small-plant": 0.1,
    "small-dozers": 0.45,
    "dozers": 1.0,
    "large-dozers": 1.7,
    "excavators": 0.55,
    "large-excavators": 1.3,
}
"""What parts and work cost of what they cost on a dozer of the middle size."""


def _prices(name: str, size: float) -> str:
    chain = _RUBBER_WORK if name == "small-plant" else _STEEL_WORK
    work = "".join(f"  {component}: {{{_ways(ways, size)}}}\n" for component, ways in {**chain, **_WHEELS}.items())
    together = "together: [[lug, drive lug]]\n" if name == "small-plant" else ""
    return (
        f"# Prices for {name.replace('-', ' ')}. Invented for trying out.\n"
        f"tracksworn: prices 1\nas of: 2031-03-01\ncurrency: EUR\nlabour per hour: 90\n"
        f"visit set-up: {round(1600 * size)}\ntrack off: {_hours(6 * size)} h\n{together}components:\n{work}"
    )


def _ways(ways: Mapping[str, tuple[int, int]], size: float) -> str:
    return ", ".join(
        f"{way}: {{parts: {round(parts * size)}, labour: {_hours(hours * size)} h{_UNTIL.get(way, '')}}}"
        for way, (parts, hours) in ways.items()
    )


def _hours(hours: float) -> str:
    return f"{max(0.25, round(hours * 4) / 4):g}"


_UNTIL: Final = {"rebuild": ", until: 100 %", "turn": ", until: 100 %"}
_STEEL_WORK: Final = {
    "link": {"replace": (11800, 14), "rebuild": (5200, 18)},
    "bushing": {"replace": (4100, 16), "turn": (600, 12)},
    "pitch": {"replace": (680, 9)},
    "shoe": {"replace": (6300, 12)},
}
_RUBBER_WORK: Final = {"lug": {"replace": (11800, 6)}, "drive lug": {"replace": (0, 6)}}
_WHEELS: Final = {
    "sprocket": {"replace": (2150, 7)},
    "front idler": {"replace": (3900, 6), "rebuild": (1700, 8)},
    "rear idler": {"replace": (3900, 6), "rebuild": (1700, 8)},
    "bottom roller": {"replace": (690, 2), "rebuild": (380, 3)},
    "top roller": {"replace": (540, 2)},
}
_TERMS: Final = """\
# What a cover allows. Invented for trying out, as is Lantern Mutual.
tracksworn: terms 1
title: Lantern Plan, undercarriage cover
rule: guarded
confidence: 95 %
undecided: measure again
hours within: 20 h
allowed:                             # percent worn against hours since fitted
  any: {0: 20, 1500: 60, 3500: 95, 9000: 100}
  bushing: {0: 20, 1500: 75, 3000: 100, 9000: 100}
  lug: {0: 20, 1200: 75, 2500: 100}
"""
_SURVEY: Final = """\
tracksworn: letterhead 1
firm: Millrace Plant Survey
address: [4 Tannery Row, Withy Bridge]
contact: {email: desk@millrace.example, web: https://millrace.example}
mark: millrace.svg
accent: "#1f5c6b"
paper: A4
units: mm
language: en
standing terms: |
  Given to the addressee, for the purpose named, on what could be seen and reached when inspected. Firms, people and
  machines are *invented for trying out*.
signatory: {name: Ines Marlow, title: Surveyor}
"""
_YARD: Final = """\
tracksworn: letterhead 1
firm: Oxbow Sale Yard
address: [Lower Meadow, Oxbow]
contact: {email: yard@oxbow.example, telephone: 555 0100}
mark: oxbow.svg
accent: "#3c3f7d"
paper: A4
units: mm
language: en
standing terms: |
  Buyers should satisfy themselves before the sale; viewing days are announced in the catalogue. Yards, people and
  machines are *invented for trying out*.
signatory: {name: Tobias Wren, title: Yard inspector}
"""
_SURVEY_MARK: Final = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 48" width="48" height="48">
  <title>Millrace Plant Survey: a sluice gate over running water</title>
  <rect width="48" height="48" fill="#1f5c6b"/>
  <path d="M22 0h4v12h10v6H12v-6h10z" fill="#fff"/>
  <path d="M7 26q4.25-4.5 8.5 0t8.5 0 8.5 0 8.5 0M7 33.5q4.25-4.5 8.5 0t8.5 0 8.5 0 8.5 0" \
fill="none" stroke="#fff" stroke-width="2.6"/>
</svg>
"""
_YARD_MARK: Final = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 48" width="48" height="48">
  <title>Oxbow Sale Yard: a river that has bent back on itself</title>
  <rect width="48" height="48" fill="#3c3f7d"/>
  <path d="M10 39h5c8 0 4-9 2.5-14C15 16 17 9 24 9s9 7 6.5 16C29 30 25 39 33 39h5" \
fill="none" stroke="#fff" stroke-width="5.5"/>
</svg>
"""
