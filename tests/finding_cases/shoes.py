"""Shoes and rubber tracks."""

from finding_cases.case import ACT, NOTE, WATCH, Case
from finding_cases.walks import C, G, S, T, Walk, saw

from tracksworn.inspection.model import Shoe
from tracksworn.inspection.vocabulary import Ground, Layout


def rubber(*observations: object, readings: object = None) -> Walk:
    return Walk(readings or {}, observations, track=T.RUBBER, layout=Layout.RUBBER)  # type: ignore[arg-type]


WIDE = Shoe(width=600.0)

CASES = (
    Case(
        "shoe-too-wide",
        NOTE,
        Walk(machine={"shoe": WIDE, "ground": (Ground.ROCK, Ground.SOFT)}),
        Walk(machine={"shoe": Shoe(width=500.0), "ground": (Ground.ROCK,)}),
        ("shoe-width", "ground-rock"),
        ("shoe", "chart", "machine"),
        "The shoes are wider than this ground needs",
        name="on rock, but not the narrowest",
    ),
    Case(
        "shoe-too-wide",
        NOTE,
        Walk(machine={"shoe": WIDE, "ground": (Ground.FIRM,)}),
        Walk(machine={"shoe": WIDE, "ground": (Ground.FIRM, Ground.SOFT)}),
        ("shoe-width", "ground-firm"),
        ("shoe", "chart", "machine"),
        "The shoes are wider than this ground needs",
        name="on firm ground, but not where it is soft too",
    ),
    Case(
        "shoe-bolts",
        WATCH,
        Walk(saw=[saw("left shoe bolt 3", S.BOLT_MISSING, G.SLIGHT), saw("left shoe bolt 9", S.LOOSE, G.SLIGHT)]),
        Walk(saw=[saw("left shoe bolt 3", S.BOLT_MISSING, G.NONE), saw("left guard", S.LOOSE, G.SLIGHT)]),
        ("seen-graded", "seen-graded"),
        ("left shoe bolt 3", "left shoe bolt 9"),
        "Left shoe bolts 3 and 9: loose and bolt missing",
    ),
    Case(
        "re-grousered",
        NOTE,
        Walk(saw=[saw("left shoe", S.RE_GROUSERED)]),
        Walk(saw=[saw("left shoe", S.RE_GROUSERED, G.NONE)]),
        ("seen",),
        ("left shoe",),
        "Left shoes carry welded bars",
    ),
    Case(
        "cord-showing",
        ACT,
        rubber(saw("left lug", S.CORD_SHOWING, G.SLIGHT), saw("left lug", S.CUT), readings={C.LUG: (10, 10)}),
        rubber(saw("left lug", S.CORD_SHOWING, G.NONE), saw("left lug", S.CUT), readings={C.LUG: (10, 10)}),
        ("seen", "seen-graded", "measured", "whatever-the-lugs-read"),
        ("left lug",),
        "Steel cord shows at the left lugs",
    ),
    Case(
        "rubber-cut",
        NOTE,
        rubber(saw("left lug", S.CUT, G.SLIGHT)),
        rubber(saw("left lug", S.CUT, G.SLIGHT), saw("left lug", S.CORD_SHOWING)),
        ("seen-graded",),
        ("left lug",),
        "Left lugs: cuts in the rubber",
        name="but with cord showing it is told there",
    ),
    Case(
        "lug-torn",
        WATCH,
        rubber(saw("left drive lug 4", S.LUG_TORN, G.SEVERE)),
        rubber(saw("left drive lug 4", S.LUG_TORN, G.NONE)),
        ("seen-graded",),
        ("left drive lug 4",),
        "Left drive lug 4: torn lugs",
    ),
    Case(
        "track-off",
        ACT,
        Walk(saw=[saw("left link", S.TRACK_OFF)]),
        Walk(saw=[saw("left link", S.TRACK_OFF, G.NONE)]),
        ("seen",),
        ("left link",),
        "A track is off its wheels",
    ),
)
