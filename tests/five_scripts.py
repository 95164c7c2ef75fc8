"""An inspection in five scripts: its inspector Greek, its place Arabic, its notes Hebrew, its firm Cyrillic."""

from pathlib import Path

from builders import by_eye, inspection, machine, reading, unseen
from tiny_font import postscript_font, tiny_font

from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.fonts import read_font
from tracksworn.inspection.letterhead import Letterhead, Signatory
from tracksworn.inspection.model import Observation, Spot
from tracksworn.inspection.vocabulary import Component, Grade, Side, Sign

INSPECTOR = "Μαρία Ωραίου"
PLACE = "ساحة النور، صف 14"
FIRM = "Ђорђе и синови"
REASON = "בוץ בתוך ה-guard"
TANGLED = "لا يمكن رؤيته (12 مم)"
NOTES = "המכונה נבדקה במגרש *Oxbow* ב-2 במאי.\n\n- ثلاثة بكرات لا تدور\n\nPlain words; № 3."
JAPANESE = "日本語"


def five_scripts(*, notes: str = NOTES, place: str = PLACE, fonts: str = "", postscript: bool = False) -> Dossier:
    """What was read of it; `fonts` are the characters of the letterhead's own font, if it has one."""
    made = postscript_font if postscript else tiny_font
    seen = inspection(
        reading(Component.LINK, by_eye(30, 50), by_eye(40, 50)),
        reading(Component.SPROCKET, by_eye(30, 40), unseen(REASON)),
        reading(Component.FRONT_IDLER, by_eye(30, 40), unseen(TANGLED)),
        observations=[
            Observation(Spot(Component.LINK, Side.LEFT, 3), (Sign.CRACK,), Grade.SLIGHT, note="שְׂרִיטָה בחוליה 3")
        ],
        machine=machine(links=45),
        inspector=INSPECTOR,
        place=place,
        notes=notes,
    )
    own = (read_font("own.ttf", made(fonts, em=2048)),) if fonts else ()
    return Dossier(seen, Path("TEST-1"), letterhead=Letterhead(FIRM, Signatory(INSPECTOR)), fonts=own, digests={})
