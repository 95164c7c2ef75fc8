"""Starting files: whole as they stand, for every layout, and free of invented figures."""

import re
from pathlib import Path

import pytest

from tracksworn.inspection.faults import Fault, Weight
from tracksworn.inspection.reading import check, read_inspection
from tracksworn.inspection.starting import COMPONENTS, NOT_LOOKED_AT, TO_BE_FILLED_IN, starting_file
from tracksworn.inspection.values import NotSeen
from tracksworn.inspection.vocabulary import TRAVELS, Component, Kind, Layout, Side


def told(file: Path, text: str) -> tuple[Fault, ...]:
    """What is told of that text, but that it is still to be filled in."""
    file.write_text(text, encoding="utf-8")
    return tuple(
        fault for fault in check(file) if "still; fill it in" not in fault.what and NOT_LOOKED_AT not in fault.what
    )


@pytest.mark.parametrize("layout", Layout)
@pytest.mark.parametrize("kind", Kind)
def test_a_starting_file_has_no_fault_and_a_warning_at_all_that_is_to_be_filled_in(
    kind: Kind, layout: Layout, tmp_path: Path
) -> None:
    file, text = tmp_path / "file.yaml", starting_file(kind, layout)
    file.write_text(text, encoding="utf-8")
    faults = check(file)
    assert {fault.weight for fault in faults} == {Weight.WARNING}
    stated = [line.partition(" #")[0] for line in text.splitlines() if not line.lstrip().startswith("#")]
    left = sum(any(word in line for word in TO_BE_FILLED_IN) for line in stated)
    unseen = any(NOT_LOOKED_AT in line for line in stated)
    assert len(faults) == left + unseen
    assert unseen is (kind is Kind.INSPECTION)


@pytest.mark.parametrize("layout", Layout)
def test_every_line_of_an_inspection_may_be_used(layout: Layout, tmp_path: Path) -> None:
    """Taking `# ` away is all that is needed; of two ways to write one side, one has to go."""
    text = starting_file(Kind.INSPECTION, layout)
    for unused in (
        "# yaml-language",
        "# One machine",
        "# away",
        "# When done",
        "# A reading",
        "# In braces",
        "# Left and",
    ):
        text = re.sub(rf"(?m)^{unused}.*\n", "", text)
    text = re.sub(r"(?m)^#   (131\.2|by eye|not seen).*\n", "", text)
    text = re.sub(rf"(    # (?:left|right): .*\n)+(    left: {re.escape(NOT_LOOKED_AT)}\n    right: .*\n)", r"\1", text)
    text = re.sub(r"    # left: \{forward", "    # right: {forward", text)
    text = text.replace("# left: 151.5, 150.8, -, 152.0 mm  ", "# left: 151.5, 150.8, -, 152.0, -, -, 150 mm")
    used = re.sub(r"(?m)^( *)# ", r"\1", text)
    faults = told(tmp_path / "inspection.yaml", used)
    assert [fault.what for fault in faults if not fault.what.endswith(" is not there")] == []
    assert len(faults) > 5


@pytest.mark.parametrize("kind", Kind)
def test_the_first_line_names_the_schema_beside_it(kind: Kind) -> None:
    first, _, rest = starting_file(kind, Layout.OVAL).partition("\n")
    assert first == f"# yaml-language-server: $schema={kind}.schema.json"
    assert rest.endswith("\n")


@pytest.mark.parametrize("layout", Layout)
def test_an_inspection_asks_for_what_the_layout_has_and_has_seen_none_of_it(layout: Layout, tmp_path: Path) -> None:
    file = tmp_path / "inspection.yaml"
    file.write_text(starting_file(Kind.INSPECTION, layout), encoding="utf-8")
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
@pytest.mark.parametrize("kind", [Kind.INSPECTION, Kind.CHART])
def test_no_size_stands_outside_a_comment(kind: Kind, layout: Layout) -> None:
    stated = "\n".join(line.partition("#")[0] for line in starting_file(kind, layout).splitlines())
    assert not re.search(r"\d *(mm|in|%)(?!\w)", stated)


@pytest.mark.parametrize("layout", Layout)
def test_examples_of_a_chart_are_whole_once_their_sizes_stand(layout: Layout, tmp_path: Path) -> None:
    """Taking the `#` away and giving sizes must be all that a newcomer has to do."""
    text = starting_file(Kind.CHART, layout)
    head, _, components = text.partition("components:\n")
    components = (
        components.replace("  # With travel or range, not wear:\n", "").replace("    # ", "    ").replace("  # ", "  ")
    )
    filled = (
        components.replace("new: … mm", "new: 100 mm")
        .replace("limit: … mm", "limit: 90 mm")
        .replace("share: …", "share: 1")
    )
    assert {fault.what for fault in told(tmp_path / "chart.yaml", f"{head}components:\n{filled}")} <= {
        "`limit` is below `new`, and pitch grows with wear"
    }
    for component in COMPONENTS[layout]:
        assert f"  {component}:" in filled
        assert (component in TRAVELS) is ("{" in filled.partition(f"  {component}:")[2].splitlines()[0])


@pytest.mark.parametrize("layout", Layout)
def test_examples_of_prices_and_terms_are_whole_once_uncommented(layout: Layout, tmp_path: Path) -> None:
    prices = re.sub(r"(?m)^# (together|components|  )", r"\1", starting_file(Kind.PRICES, layout))
    assert "\ncomponents:\n" in prices
    assert told(tmp_path / "prices.yaml", prices) == ()
    terms = re.sub(r"(?m)^  # ", "  ", starting_file(Kind.TERMS, layout))
    assert told(tmp_path / "terms.yaml", terms) == ()
