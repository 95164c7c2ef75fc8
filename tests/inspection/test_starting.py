"""Starting files: whole as they stand, for every layout, and free of invented figures."""

import re
from pathlib import Path

import pytest

from tracksworn.inspection.reading import check, read_inspection
from tracksworn.inspection.starting import COMPONENTS, starting_file
from tracksworn.inspection.values import NotSeen
from tracksworn.inspection.vocabulary import TRAVELS, Component, Layout, Side

KINDS = ("inspection", "chart", "letterhead", "prices", "terms")


@pytest.mark.parametrize("layout", Layout)
@pytest.mark.parametrize("kind", KINDS)
def test_a_starting_file_has_no_fault(kind: str, layout: Layout, tmp_path: Path) -> None:
    file = tmp_path / f"{kind}.yaml"
    file.write_text(starting_file(kind, layout), encoding="utf-8")
    assert check(file) == ()


@pytest.mark.parametrize("kind", KINDS)
def test_the_first_line_names_the_schema_beside_it(kind: str) -> None:
    first, _, rest = starting_file(kind, Layout.OVAL).partition("\n")
    assert first == f"# yaml-language-server: $schema={kind}.schema.json"
    assert rest.endswith("\n")


@pytest.mark.parametrize("layout", Layout)
def test_an_inspection_asks_for_what_the_layout_has_and_has_seen_none_of_it(layout: Layout, tmp_path: Path) -> None:
    file = tmp_path / "inspection.yaml"
    file.write_text(starting_file("inspection", layout), encoding="utf-8")
    inspection = read_inspection(file).inspection
    assert inspection.machine.layout is layout
    assert tuple(inspection.readings) == COMPONENTS[layout]
    for reading in inspection.readings.values():
        assert all(isinstance(reading.sides[side], NotSeen) for side in Side)
    assert inspection.observations == ()


@pytest.mark.parametrize("layout", Layout)
def test_rubber_and_steel_have_their_own_components(layout: Layout) -> None:
    on_rubber = layout is Layout.RUBBER
    assert (Component.LUG in COMPONENTS[layout]) is on_rubber
    assert (Component.LINK in COMPONENTS[layout]) is not on_rubber
    assert (Component.REAR_IDLER in COMPONENTS[layout]) is (layout is Layout.ELEVATED_SPROCKET)


@pytest.mark.parametrize("layout", Layout)
@pytest.mark.parametrize("kind", ["inspection", "chart"])
def test_no_size_stands_outside_a_comment(kind: str, layout: Layout) -> None:
    stated = "\n".join(line.partition("#")[0] for line in starting_file(kind, layout).splitlines())
    assert not re.search(r"\d *(mm|in|%)(?!\w)", stated)


@pytest.mark.parametrize("layout", Layout)
def test_examples_of_a_chart_are_whole_once_their_sizes_stand(layout: Layout, tmp_path: Path) -> None:
    """Taking the `#` away and giving sizes must be all that a newcomer has to do."""
    text = starting_file("chart", layout)
    head, _, components = text.partition("components:\n")
    components = (
        components.replace("  # With travel or range, not wear:\n", "").replace("    # ", "    ").replace("  # ", "  ")
    )
    filled = (
        components.replace("new: … mm", "new: 100 mm")
        .replace("limit: … mm", "limit: 90 mm")
        .replace("share: …", "share: 1")
    )
    file = tmp_path / "chart.yaml"
    file.write_text(f"{head}components:\n{filled}", encoding="utf-8")
    assert check(file) == ()
    for component in COMPONENTS[layout]:
        assert f"  {component}:" in filled
        assert (component in TRAVELS) is ("{" in filled.partition(f"  {component}:")[2].splitlines()[0])


@pytest.mark.parametrize("layout", Layout)
def test_examples_of_prices_and_terms_are_whole_once_uncommented(layout: Layout, tmp_path: Path) -> None:
    prices = tmp_path / "prices.yaml"
    text = starting_file("prices", layout)
    prices.write_text(re.sub(r"(?m)^# (together|components|  )", r"\1", text), encoding="utf-8")
    assert "\ncomponents:\n" in prices.read_text(encoding="utf-8")
    assert check(prices) == ()
    terms = tmp_path / "terms.yaml"
    terms.write_text(re.sub(r"(?m)^  # ", "  ", starting_file("terms", layout)), encoding="utf-8")
    assert check(terms) == ()
