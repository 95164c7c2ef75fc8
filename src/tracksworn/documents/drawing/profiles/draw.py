"""Draw a wear profile."""

from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.profiles.profile import Profile


def draw_profile(profile: Profile) -> Drawing:
    """The section of the profile's component with its key, `profile.width` × `profile.height` mm."""
    return Drawing(profile.width, profile.height, (), profile.alternative)
