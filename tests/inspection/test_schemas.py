"""JSON Schemas: as the types generate them, and as an independent validator reads them."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from tracksworn.inspection.schemas import DIALECT, as_json, schema
from tracksworn.inspection.shipped import shipped_schema
from tracksworn.inspection.vocabulary import Kind
from tracksworn.inspection.written import FaultList, Items, Node, Record
from tracksworn.inspection.yaml_source import read_yaml

ROOT = Path(__file__).parents[2]
FILES = sorted([*Path(__file__).with_name("example").glob("*/*.yaml"), *ROOT.glob("demo_inspections/*/*.yaml")])
BY_HEADER = {kind.header: kind for kind in Kind}


def as_texts(node: Node) -> Any:
    """What a file holds, every scalar as text."""
    if isinstance(node, Record):
        return {key: as_texts(value) for key, value in node.items()}
    return [as_texts(item) for item in node] if isinstance(node, Items) else str(node)


def as_typed(value: Any) -> Any:
    """As an editor types scalars: numbers and truth values where they look like these."""
    if isinstance(value, dict):
        return {key: as_typed(item) for key, item in value.items()}
    if isinstance(value, list):
        return [as_typed(item) for item in value]
    if value in ("yes", "no", "true", "false"):
        return value in ("yes", "true")
    try:
        return float(value) if "." in value else int(value)
    except ValueError:
        return value


def written(file: Path) -> dict[str, Any]:
    read = read_yaml(file.read_bytes(), FaultList(file))
    assert read is not None
    texts = as_texts(read)
    assert isinstance(texts, dict)
    return texts


def validator(kind: Kind) -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator(schema(kind))


def subschemas(node: Any) -> Iterator[dict[str, Any]]:
    if isinstance(node, dict):
        yield node
    for part in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        yield from subschemas(part)


@pytest.mark.parametrize("kind", Kind)
def test_what_is_shipped_is_what_the_types_generate(kind: Kind) -> None:
    """Written anew by `python -m tracksworn.inspection.schemas`."""
    assert shipped_schema(kind) == as_json(kind)


@pytest.mark.parametrize("kind", Kind)
def test_a_schema_is_a_schema_of_2020_12(kind: Kind) -> None:
    generated = schema(kind)
    assert generated["$schema"] == DIALECT
    jsonschema.Draft202012Validator.check_schema(generated)


@pytest.mark.parametrize("kind", Kind)
def test_every_key_has_its_help_and_none_is_free(kind: Kind) -> None:
    for part in subschemas(schema(kind)):
        if part.get("description") and "properties" in part:
            assert part["additionalProperties"] is False
            for key, value in part["properties"].items():
                assert value.get("description"), key


@pytest.mark.parametrize("file", FILES, ids=lambda file: f"{file.parent.name}-{file.stem}")
@pytest.mark.parametrize("typed", [as_texts, as_typed], ids=["texts", "typed"])
def test_good_files_are_valid(file: Path, typed: Any) -> None:
    texts = written(file)
    judge = validator(BY_HEADER[texts["tracksworn"]])
    assert [error.message for error in judge.iter_errors(texts if typed is as_texts else as_typed(texts))] == []


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("serail",), "x"),
        (("machine", "layout"), "ovl"),
        (("machine", "shoe"), {"widht": "1 mm"}),
        (("readings", "link", "left"), {"forwrd side": "1 mm"}),
        (("readings", "bottom roller", "left"), {"21": "1 mm"}),
        (("readings", "lnik"), {"left": "1 mm"}),
        (("observations",), [{"at": "link", "seen": "leek"}]),
        (("observations",), [{"seen": "leak"}]),
        (("tracksworn",), "inspection 2"),
    ],
)
def test_an_editor_shows_what_the_program_would_refuse(path: tuple[str, ...], value: Any) -> None:
    texts = written(Path(__file__).with_name("example") / "MPS-2031-0418/inspection.yaml")
    node = texts
    for key in path[:-1]:
        node = node[key]
    node[path[-1]] = value
    assert not validator(Kind.INSPECTION).is_valid(texts)


def test_required_keys_are_required() -> None:
    assert set(schema(Kind.INSPECTION)["required"]) == {
        "tracksworn", "number", "inspected", "inspector", "machine", "chart",
    }  # fmt: skip
    assert set(schema(Kind.CHART)["required"]) == {"tracksworn", "title", "source", "layout", "components"}
    assert set(schema(Kind.PRICES)["required"]) == {
        "tracksworn", "as of", "currency", "labour per hour", "visit set-up", "track off",
    }  # fmt: skip
    assert set(schema(Kind.TERMS)["required"]) == {"tracksworn", "title", "rule", "allowed"}
    assert set(schema(Kind.LETTERHEAD)["required"]) == {"tracksworn", "firm", "signatory"}
    machine = schema(Kind.INSPECTION)["$defs"]["MachineFile"]
    assert set(machine["required"]) == {"maker", "model", "serial", "layout"}
