"""What was seen marked or severe and no other check uses: one case for each sign, at a part that no check covers."""

from finding_cases.case import WATCH, Case
from finding_cases.walks import G, S, Walk, saw

AT = {S.FLANGE_CONTACT: "left shoe", S.DRY_JOINT: "left shoe", S.HOT: "left shoe", S.HEAT_MARK: "left shoe"}

TITLES = {
    S.LEAK: "Left guard leaks",
    S.BENT: "Left guard is bent",
    S.LOOSE: "Left guard is loose",
    S.MISSING: "Left guard is missing",
    S.FLAT_SPOT: "Left guard: a flat spot",
    S.END_PLAY: "Left guard: end play",
    S.HOT: "Left shoes run hot",
    S.SIDE_WEAR: "Left guard: worn at the side",
    S.TREAD_GROOVES: "Left guard: grooves in the tread",
    S.FLANGE_WORN: "Left guard: worn flanges",
    S.FLANGE_CONTACT: "Left shoes: flange contact",
    S.GROOVE: "Left guard: grooved",
    S.RAIL_SPALLING: "Left guard: the rail spalls",
    S.CHROME_LOSS: "Left guard: chrome is lost",
    S.DRY_JOINT: "Left shoes: dry joint",
    S.BOLT_MISSING: "Left guard: a bolt is missing",
    S.PACKED: "Left guard is packed",
    S.CORROSION: "Left guard is corroded",
    S.HEAT_MARK: "Left shoes: marks of heat",
    S.OTHER: "Left guard: as the inspector notes",
}

CASES = tuple(
    Case(
        f"seen-{sign.replace(' ', '-')}",
        WATCH,
        Walk(saw=[saw(AT.get(sign, "left guard"), sign, G.MARKED)]),
        Walk(saw=[saw(AT.get(sign, "left guard"), sign, G.SLIGHT)]),
        ("seen-in-note",) if sign is S.OTHER else ("seen-graded",),
        (AT.get(sign, "left guard"),),
        title,
    )
    for sign, title in TITLES.items()
)
