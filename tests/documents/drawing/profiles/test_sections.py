"""The metal of every section: less of it as it wears, and where the reading says."""

from dataclasses import replace

import pytest
from documents.drawing.profiles.test_profiles import SECTIONS, SIZES, profile
from documents.drawing.sheets import measured
from shapely.geometry import Point

from tracksworn.documents.drawing.profiles.amounts import amounts
from tracksworn.documents.drawing.profiles.forms import sections
from tracksworn.documents.drawing.profiles.profile import Measure, Profile
from tracksworn.documents.drawing.profiles.section import Section
from tracksworn.inspection.vocabulary import Component, ShoeKind

FORMS: list[tuple[str, Profile]] = [(component.value, profile(component, measured(50.0))) for component in SECTIONS]
FORMS += [(kind.value, replace(profile(Component.SHOE, measured(50.0)), shoe=kind)) for kind in ShoeKind]
FORMS += [
    ("segment", replace(profile(Component.SPROCKET, measured(50.0)), segment=True)),
    ("double flange", replace(profile(Component.BOTTOM_ROLLER, measured(50.0)), flanges=2)),
    ("drive lug by height", replace(profile(Component.DRIVE_LUG, measured(50.0)), measure=Measure.HEIGHT)),
    ("bushing wall", replace(profile(Component.BUSHING, measured(50.0)), measure=Measure.WALL)),
]
NAMES = [name for name, _ in FORMS]


def section_of(one: Profile) -> Section:
    return sections(one, amounts(one))[0]


@pytest.mark.parametrize("one", [one for _, one in FORMS], ids=NAMES)
def test_metal_grows_less_as_it_wears(one: Profile) -> None:
    section, limit = section_of(one), amounts(one).limit
    for metal in (section.solid, section.worn):
        areas = [metal(tuple(share * limit for _ in section.faces)).area for share in (0.0, 0.25, 0.5, 1.0)]
        assert areas == sorted(areas, reverse=True)
        assert areas[0] > areas[-1] > 0
    assert section.solid(tuple(0.0 for _ in section.faces)).equals(section.worn(tuple(0.0 for _ in section.faces)))


@pytest.mark.parametrize("one", [one for _, one in FORMS], ids=NAMES)
def test_as_new_lies_in_its_bounds(one: Profile) -> None:
    section = section_of(one)
    left, low, right, high = section.solid(tuple(0.0 for _ in section.faces)).bounds
    assert section.bounds[0] <= left + 1e-6
    assert section.bounds[1] <= low + 1e-6
    assert right <= section.bounds[2] + 1e-6
    assert high <= section.bounds[3] + 1e-6


@pytest.mark.parametrize("component", [Component.LINK, Component.SHOE])
def test_a_height_is_the_height_of_the_metal(component: Component) -> None:
    """The reading stands at the crown of the working face."""
    section, (new, limit) = section_of(profile(component, measured(50.0))), SIZES[component]
    for loss in (0.0, (new - limit) / 2, new - limit):
        assert section.worn((loss,)).bounds[3] == pytest.approx(new - loss)


def test_a_lug_hangs_from_its_carcass_by_its_height() -> None:
    section = section_of(profile(Component.LUG, measured(50.0)))
    assert section.worn((10.0,)).bounds[1] == pytest.approx(-(42.0 - 10.0))


@pytest.mark.parametrize("component", [Component.BOTTOM_ROLLER, Component.TOP_ROLLER, Component.FRONT_IDLER])
def test_half_of_a_diameter_goes_from_the_radius(component: Component) -> None:
    one = profile(component, measured(50.0))
    section, limit = section_of(one), amounts(one).limit
    (_, new), (_, worn) = section.touch(0, 0.0, 0.5), section.touch(0, limit, 0.5)
    assert new - worn == pytest.approx(limit / 2)


def test_all_that_a_bushing_has_lost_across_has_gone_at_one_side() -> None:
    section = section_of(profile(Component.BUSHING, measured(50.0)))
    new, worn = section.solid((0.0,)), section.worn((4.9,))
    deepest = max(worn.distance(Point(*corner)) for corner in new.exterior.coords)
    assert deepest == pytest.approx(4.9, abs=0.1)


def test_a_tooth_is_as_thick_as_was_read_at_the_height_that_was_read() -> None:
    section = section_of(profile(Component.SPROCKET, measured(50.0)))
    assert section.span is not None
    for losses in ((0.0, 0.0), (7.0, 7.0), (7.0, 3.0), (2.0, 7.0)):
        start, end = section.span.start(losses), section.span.end(losses)
        assert end[0] - start[0] == pytest.approx(50.0 - max(losses))
        assert start[1] == end[1]
