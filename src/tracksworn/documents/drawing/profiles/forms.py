"""Which section a profile asks for."""

from tracksworn.documents.drawing.profiles.amounts import Amounts, deepest
from tracksworn.documents.drawing.profiles.bushing import bushing_section
from tracksworn.documents.drawing.profiles.profile import Measure, Profile, Worn
from tracksworn.documents.drawing.profiles.rail import rail_section
from tracksworn.documents.drawing.profiles.rubber import drive_lug_section, lug_section
from tracksworn.documents.drawing.profiles.section import Section
from tracksworn.documents.drawing.profiles.shoe import shoe_section
from tracksworn.documents.drawing.profiles.sprocket import gap_section, segment_section, tooth_section
from tracksworn.documents.drawing.profiles.wheel import bottom_roller_section, idler_section, top_roller_section
from tracksworn.inspection.vocabulary import Component, ShoeKind


def sections(profile: Profile, given: Amounts) -> tuple[Section, ...]:
    """One section, or where they are narrow enough one for either side; else the most worn stands for both."""
    single = profile.shoe in (ShoeKind.SINGLE_GROUSER, None)
    if profile.component is Component.LINK or (profile.component is Component.SHOE and single):
        return tuple(_one(profile, given, (worn,)) for worn in profile.now[:2])
    return (_one(profile, given, _of_one_kind(profile.now)),)


def _of_one_kind(now: tuple[Worn, ...]) -> tuple[Worn, ...]:
    """What was measured; where nothing was, what was seen: one section cannot show an edge and a range at once."""
    measured = tuple(worn for worn in now if worn.size is not None)
    return measured or tuple(worn for worn in now if worn.gauge.seen) or now


def governing(faces: tuple[Worn, ...]) -> int:
    """The index of the most worn of the faces that were measured, else of those seen."""
    return max(range(len(faces)), key=lambda index: _rank(faces[index]))


def _rank(worn: Worn) -> tuple[int, float]:
    gauge = worn.gauge
    return (2 if worn.size else int(gauge.seen)), gauge.percent if gauge.percent is not None else -1e9


def _one(profile: Profile, given: Amounts, worn: tuple[Worn, ...]) -> Section:
    words, depth, worst = profile.words, deepest(profile, given), worn[governing(worn)]
    match profile.component:
        case Component.LINK:
            return rail_section(worst, given, depth)
        case Component.BUSHING:
            return bushing_section(worn, given, depth, words)
        case Component.SHOE:
            return shoe_section(worst, given, profile.shoe)
        case Component.LUG:
            return lug_section(worst, given, words)
        case Component.DRIVE_LUG:
            return drive_lug_section(worst, given, words)
        case Component.SPROCKET:
            return _sprocket(profile, given, worn)
        case Component.BOTTOM_ROLLER:
            return bottom_roller_section(worst, given, depth, words, profile.flanges)
        case Component.TOP_ROLLER:
            return top_roller_section(worst, given, depth, words)
        case _:
            return idler_section(worn, given, depth, next(iter(profile.flanks), None))


def _sprocket(profile: Profile, given: Amounts, worn: tuple[Worn, ...]) -> Section:
    if given.measure is Measure.GAP:
        return gap_section(worn, given, profile.words)
    if profile.segment:
        return segment_section(worn, given)
    return tooth_section(worn, given, profile.above_root, profile.flanks)
