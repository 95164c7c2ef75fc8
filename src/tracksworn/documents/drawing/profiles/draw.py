"""Draw a wear profile: the sections of a component at the largest scale that fits, labelled, with their key."""

from typing import Final

from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.profiles.amounts import Amounts, amounts
from tracksworn.documents.drawing.profiles.key import HEAD, draw_key, make_key, title_lines
from tracksworn.documents.drawing.profiles.labelling import label
from tracksworn.documents.drawing.profiles.painting import paint
from tracksworn.documents.drawing.profiles.pitch import draw_pitch
from tracksworn.documents.drawing.profiles.placing import Field, place
from tracksworn.documents.drawing.profiles.profile import Profile
from tracksworn.documents.drawing.profiles.scale import ratio
from tracksworn.documents.drawing.profiles.subject import subjects
from tracksworn.inspection.vocabulary import Component

_BELOW: Final = 2.2  # mm under a section, for its break line
_AIR: Final = 1.0  # mm under all that is drawn


def draw_profile(profile: Profile) -> Drawing:
    """The section of the profile's component with its key.

    `profile.width` mm wide; as high as what is drawn, which is made to fit `profile.height`, or as its notes.
    """
    if profile.component is Component.PITCH:
        return draw_pitch(profile)
    given = amounts(profile)
    found = subjects(profile, given)
    key = make_key(profile, [worn for subject in found for worn in subject.section.faces])
    field = Field(0.0, HEAD + 0.6, key.left - 3.0, max(profile.height, key.bottom + 1.0) - _BELOW)
    frames = place(profile, found, field)
    pile = Pile()
    pile.write(*title_lines(profile, _scale_text(profile, given, frames[0].scale)))
    draw_key(pile, profile, key)
    for subject, frame in zip(found, frames, strict=True):
        paint(pile, frame, subject)
        label(pile, profile, subject, frame, field)
    return pile.drawing(profile.width, round(pile.lowest + _AIR, 2), profile.alternative)


def _scale_text(profile: Profile, given: Amounts, scale: float) -> str:
    """The section's name with its scale, or that it is a typical one where nothing is to scale."""
    if not given.to_scale:
        return profile.words.typical
    said = ratio(scale, profile.words.decimal)
    return f"{profile.section}, {said}" if profile.section else said
