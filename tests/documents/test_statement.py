"""The assessment as JSON: the published keys in their order, whole figures, null for what has none."""

import json
import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import jsonschema
import pytest
from builders import about, at_least, at_most, chart, inspection, machine, reading, unseen, wears
from long_example import CHART, FIRM, INSPECTION

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Assessment
from tracksworn.assessment.sayings import Severity
from tracksworn.documents.statement import statement
from tracksworn.inspection.vocabulary import Component, Layout, PartPlace, Side

NUMBER = {"type": "number"}
COUNT = {"type": "integer", "minimum": 0}
MAY_BE_NUMBER = {"type": ["number", "null"]}
POSITION = {"type": ["integer", "null"], "minimum": 1}
SENTENCES = {"type": "array", "items": {"type": "string", "minLength": 1}}


def words(*kinds: Any, null: bool = False) -> dict[str, Any]:
    """One of the words of these enumerations."""
    allowed = [str(word) for kind in kinds for word in kind]
    return {"enum": [*allowed, None] if null else allowed}


def mapping(null: bool = False, **properties: Any) -> dict[str, Any]:
    """A mapping with exactly these keys."""
    kind: Any = ["object", "null"] if null else "object"
    return {"type": kind, "properties": properties, "required": list(properties), "additionalProperties": False}


def listed(item: dict[str, Any]) -> dict[str, Any]:
    return {"type": "array", "items": item}


FIGURE = mapping(null=True, percent_worn=MAY_BE_NUMBER, low=MAY_BE_NUMBER, high=MAY_BE_NUMBER, position=POSITION)
SCHEMA = mapping(
    tracksworn={"const": "assessment 1"},
    method={"const": 1},
    number={"type": "string"},
    revision=COUNT,
    inspected={"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"},
    components=listed(
        mapping(
            component=words(Component),
            side=words(Side),
            position=POSITION,
            place=words(PartPlace, null=True),
            basis={"enum": ["measured", "by eye", "not seen"]},
            readings=COUNT,
            size_mm=MAY_BE_NUMBER,
            percent_worn=MAY_BE_NUMBER,
            low=MAY_BE_NUMBER,
            high=MAY_BE_NUMBER,
            uncertainty=MAY_BE_NUMBER,
            dof=MAY_BE_NUMBER,
            stage={"enum": ["first half", "second half", "near limit", "past limit", None]},
            life_used=MAY_BE_NUMBER,
            worst_joint=mapping(null=True, joint=POSITION, percent_worn=NUMBER, further_high=NUMBER),
            assumed=listed({"enum": ["impact", "inspector", "instrument", "seat", "spread"]}),
        )
    ),
    sides=listed(
        mapping(
            component=words(Component),
            left=FIGURE,
            right=FIGURE,
            delta=MAY_BE_NUMBER,
            delta_low=MAY_BE_NUMBER,
            delta_high=MAY_BE_NUMBER,
            differs={"type": ["boolean", "null"]},
        )
    ),
    overall=mapping(
        percent_worn=MAY_BE_NUMBER,
        low=MAY_BE_NUMBER,
        high=MAY_BE_NUMBER,
        bound={"enum": ["at least", None]},
        seen_share={"type": "number", "minimum": 0, "maximum": 1},
        floor=NUMBER,
        ceiling=NUMBER,
        shares_from={"enum": ["chart", "typical"]},
        past_limit=COUNT,
        near_limit=COUNT,
        unseen=COUNT,
        worst=mapping(null=True, component=words(Component), side=words(Side), position=POSITION, percent_worn=NUMBER),
    ),
    travel=listed(mapping(component=words(Component), side=words(Side), size_mm=NUMBER, percent_used=MAY_BE_NUMBER)),
    findings=listed(
        mapping(
            code={"type": "string", "pattern": "^[a-z]+(-[a-z]+)*$"},
            severity=words(Severity),
            about={"type": "array", "items": {"type": "string"}},
            because=SENTENCES,
            advice={"type": "string", "minLength": 1},
        )
    ),
    forecast={"type": "null"},
    plan={"type": "null"},
    conformity={"type": "null"},
)
"""Derived from the published format of an assessment, for these tests."""


def long_example() -> Assessment:
    return assess(INSPECTION, CHART, FIRM)


def by_eye_alone() -> Assessment:
    seen = inspection(
        reading(Component.LINK, about(40), at_least(50)),
        reading(Component.SPROCKET, at_most(30), unseen("mud")),
        machine=machine(Layout.EXCAVATOR, bottom_rollers=8, top_rollers=2),
    )
    return assess(seen, None)


def nothing_seen() -> Assessment:
    return assess(inspection(reading(Component.LINK, unseen(), unseen())), chart(wears(Component.LINK, 143.0, 128.0)))


ASSESSMENTS = [long_example, by_eye_alone, nothing_seen]


@pytest.mark.parametrize("made", ASSESSMENTS)
def test_the_statement_is_as_published(made: Any) -> None:
    said = statement(made())
    jsonschema.validate(said, SCHEMA)
    assert list(said) == list(SCHEMA["properties"])


@pytest.mark.parametrize("made", ASSESSMENTS)
def test_keys_stand_in_the_published_order(made: Any) -> None:
    said = statement(made())
    for name in ("components", "sides", "travel", "findings"):
        for entry in said[name]:
            assert list(entry) == list(SCHEMA["properties"][name]["items"]["properties"])
    assert list(said["overall"]) == list(SCHEMA["properties"]["overall"]["properties"])


def leaves(value: Any) -> Iterator[Any]:
    if isinstance(value, dict | list):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from leaves(inner)
    else:
        yield value


@pytest.mark.parametrize("made", ASSESSMENTS)
def test_nothing_but_plain_values(made: Any) -> None:
    """So that canonical JSON takes it as it is: no enumeration, no figure that is not finite."""
    for leaf in leaves(statement(made())):
        assert type(leaf) in (str, int, float, bool, type(None))
        assert not isinstance(leaf, float) or math.isfinite(leaf)


def test_figures_keep_their_full_precision() -> None:
    row = long_example().components[0]
    said = json.loads(json.dumps(statement(long_example())))["components"][0]
    assert said["percent_worn"] == row.percent_worn
    assert said["uncertainty"] == row.uncertainty


def test_sentences_are_english_and_findings_name_their_readings() -> None:
    dry = next(one for one in statement(long_example())["findings"] if one["code"] == "dry-joint")
    assert "left pitch" in dry["about"]
    assert any("868" in reason for reason in dry["because"])


def test_a_figure_that_is_not_finite_is_refused() -> None:
    broken = long_example()
    broken = replace(broken, overall=replace(broken.overall, floor=math.inf))
    with pytest.raises(ValueError, match="not finite: inf"):
        statement(broken)
