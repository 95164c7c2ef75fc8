"""The assessment as JSON: the published keys in their order, whole figures, null for what has none."""

import json
import math
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Any

import jsonschema
import pytest
from builders import about, at_least, at_most, chart, inspection, machine, reading, unseen, wears
from long_example import CHART, EARLIER, FIRM, INSPECTION, PRICES, TERMS

from tracksworn.assessment.assess import assess
from tracksworn.assessment.decisions import (
    Conformity,
    ForecastRow,
    Plan,
    PlannedWork,
    RateFrom,
    Result,
    Verdict,
    Visit,
    Why,
)
from tracksworn.assessment.model import Assessment
from tracksworn.assessment.sayings import Severity
from tracksworn.documents.statement import statement
from tracksworn.inspection.prices import Work
from tracksworn.inspection.terms import Rule
from tracksworn.inspection.vocabulary import Component, Layout, PartPlace, Side

NUMBER = {"type": "number"}
COUNT = {"type": "integer", "minimum": 0}
MAY_BE_NUMBER = {"type": ["number", "null"]}
POSITION = {"type": ["integer", "null"], "minimum": 1}
DAY = {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"}
MAY_BE_DAY = {**DAY, "type": ["string", "null"]}
POSITIVE = {"type": "number", "minimum": 0}
RATES: dict[str, Any] = {"since fitted": MAY_BE_NUMBER, "between inspections": MAY_BE_NUMBER}
RESULT = {"enum": ["passes", "fails", "undecided", "outside the terms"]}
SENTENCES = {"type": "array", "items": {"type": "string", "minLength": 1}}


def words(*kinds: Any, null: bool = False) -> dict[str, Any]:
    """One of the words of these enumerations."""
    allowed = [str(word) for kind in kinds for word in kind]
    return {"enum": [*allowed, None] if null else allowed}


def mapping(*, null: bool = False, **properties: Any) -> dict[str, Any]:
    """A mapping with exactly these keys."""
    kind: Any = ["object", "null"] if null else "object"
    return {"type": kind, "properties": properties, "required": list(properties), "additionalProperties": False}


def listed(item: dict[str, Any], null: bool = False) -> dict[str, Any]:
    return {"type": ["array", "null"] if null else "array", "items": item}


FIGURE = mapping(null=True, percent_worn=MAY_BE_NUMBER, low=MAY_BE_NUMBER, high=MAY_BE_NUMBER, position=POSITION)
SCHEMA = mapping(
    tracksworn={"const": "assessment 1"},
    method={"const": 1},
    number={"type": "string"},
    revision=COUNT,
    inspected=DAY,
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
    forecast=listed(
        mapping(
            component=words(Component),
            side=words(Side),
            position=POSITION,
            rate_per_100_h=NUMBER,
            rate_from={"enum": ["since fitted", "between inspections", "line"]},
            rates=mapping(**RATES),
            hours_left=POSITIVE,
            hours_low=POSITIVE,
            hours_high={**POSITIVE, "type": ["number", "null"]},
            date_low=MAY_BE_DAY,
            date_high=MAY_BE_DAY,
        ),
        null=True,
    ),
    plan=mapping(
        null=True,
        as_of=DAY,
        visits=listed(
            mapping(
                at_hours=POSITIVE,
                work=listed(
                    mapping(
                        component=words(Component),
                        side=words(Side),
                        position=POSITION,
                        way={"enum": ["replace", "turn", "rebuild", "re-shell", "re-grouser"]},
                        cost=POSITIVE,
                    )
                ),
                cost=POSITIVE,
            )
        ),
        value_left=POSITIVE,
        cost_to_restore=POSITIVE,
        currency={"type": "string", "pattern": "^[A-Z]{3}$"},
    ),
    conformity=mapping(
        null=True,
        title={"type": "string"},
        rule={"enum": ["guarded", "simple"]},
        result=RESULT,
        components=listed(
            mapping(
                component=words(Component),
                side=words(Side),
                position=POSITION,
                allowed=MAY_BE_NUMBER,
                guard=MAY_BE_NUMBER,
                probability={"type": ["number", "null"], "minimum": 0, "maximum": 1},
                result=RESULT,
            )
        ),
    ),
)
"""Derived from the published format of an assessment, for these tests."""


def long_example() -> Assessment:
    return assess(INSPECTION, CHART, FIRM, earlier=[EARLIER], prices=PRICES, terms=TERMS)


def with_decisions() -> Assessment:
    """The long example with all that a reader decides by, as values made by hand."""
    row = ForecastRow(
        component=Component.BOTTOM_ROLLER,
        side=Side.RIGHT,
        position=1,
        rate_per_100_h=2.0,
        rate_from=RateFrom.LINE,
        rates={RateFrom.BETWEEN: 1.5},
        hours_left=332.1,
        hours_low=270.2,
        hours_high=None,
        date_low=date(2031, 6, 11),
        date_high=None,
        whole_life=5000.0,
        over=800.0,
    )
    work = PlannedWork(Component.BOTTOM_ROLLER, Side.RIGHT, 1, Work.RE_SHELL, 300.5, 142.5, 332.1, 0.0)
    return replace(
        long_example(),
        forecast=(row,),
        plan=Plan(
            as_of=date(2031, 3, 1),
            currency="EUR",
            labour_per_hour=95.0,
            visits=(Visit(332.1, 8744.1, (work,), 1800.0, 0.0),),
            value_left=900.0,
            cost_to_restore=100.0,
        ),
        conformity=Conformity(
            "Lantern Plan",
            Rule.GUARDED,
            Result.FAILS,
            (
                Verdict(Component.BOTTOM_ROLLER, Side.RIGHT, 1, 66.0, 3.5, 2.5e-11, Result.FAILS),
                Verdict(Component.LINK, Side.LEFT, None, None, None, None, Result.OUTSIDE, Why.FITTING),
            ),
            confidence=0.95,
            tested=1,
        ),
    )


def by_eye_alone() -> Assessment:
    seen = inspection(
        reading(Component.LINK, about(40), at_least(50)),
        reading(Component.SPROCKET, at_most(30), unseen("mud")),
        machine=machine(Layout.EXCAVATOR, bottom_rollers=8, top_rollers=2),
    )
    return assess(seen, None)


def nothing_seen() -> Assessment:
    return assess(inspection(reading(Component.LINK, unseen(), unseen())), chart(wears(Component.LINK, 143.0, 128.0)))


ASSESSMENTS = [long_example, with_decisions, by_eye_alone, nothing_seen]


@pytest.mark.parametrize("made", ASSESSMENTS)
def test_the_statement_is_as_published(made: Any) -> None:
    said = statement(made())
    jsonschema.validate(said, SCHEMA)
    assert list(said) == list(SCHEMA["properties"])


@pytest.mark.parametrize("made", ASSESSMENTS)
def test_keys_stand_in_the_published_order(made: Any) -> None:
    in_the_order_of(SCHEMA, statement(made()))


def in_the_order_of(schema: dict[str, Any], value: Any) -> None:
    """Every mapping of a value has its keys in the order of its schema."""
    if isinstance(value, list):
        for item in value:
            in_the_order_of(schema.get("items", {}), item)
    if isinstance(value, dict):
        assert list(value) == list(schema["properties"])
        for key, inner in value.items():
            in_the_order_of(schema["properties"][key], inner)


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


def test_what_was_not_asked_for_is_null_and_what_was_is_all_there() -> None:
    assert [statement(by_eye_alone())[name] for name in ("forecast", "plan", "conformity")] == [None, None, None]
    said = statement(with_decisions())
    assert said["forecast"] == [
        {
            "component": "bottom roller",
            "side": "right",
            "position": 1,
            "rate_per_100_h": 2.0,
            "rate_from": "line",
            "rates": {"since fitted": None, "between inspections": 1.5},
            "hours_left": 332.1,
            "hours_low": 270.2,
            "hours_high": None,
            "date_low": "2031-06-11",
            "date_high": None,
        }
    ]
    work = {"component": "bottom roller", "side": "right", "position": 1, "way": "re-shell", "cost": 443.0}
    assert said["plan"] == {
        "as_of": "2031-03-01",
        "visits": [{"at_hours": 8744.1, "work": [work], "cost": 2243.0}],
        "value_left": 900.0,
        "cost_to_restore": 100.0,
        "currency": "EUR",
    }
    verdict = {"component": "bottom roller", "side": "right", "position": 1, "allowed": 66.0, "guard": 3.5}
    outside = {"component": "link", "side": "left", "position": None, "allowed": None, "guard": None}
    assert said["conformity"] == {
        "title": "Lantern Plan",
        "rule": "guarded",
        "result": "fails",
        "components": [
            {**verdict, "probability": 2.5e-11, "result": "fails"},
            {**outside, "probability": None, "result": "outside the terms"},
        ],
    }


def test_sentences_are_english_and_findings_name_their_readings() -> None:
    dry = next(one for one in statement(long_example())["findings"] if one["code"] == "dry-joint")
    assert "left pitch" in dry["about"]
    assert any("868" in reason for reason in dry["because"])


def test_a_figure_that_is_not_finite_is_refused() -> None:
    broken = long_example()
    broken = replace(broken, overall=replace(broken.overall, floor=math.inf))
    with pytest.raises(ValueError, match="not finite: inf"):
        statement(broken)
