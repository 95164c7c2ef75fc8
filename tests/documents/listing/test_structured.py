"""The data block of a listing sheet: schema.org's Product, with units by UN/CEFACT Recommendation 20."""

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import lots
import pytest
from builders import about, at_least, reading
from jsonschema import Draft202012Validator
from lots import lot, measured, ordinary, told

from tracksworn.assessment.assess import assess
from tracksworn.documents.full.reader import context_for
from tracksworn.documents.listing.structured import structured
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.terms import Rule, Terms
from tracksworn.inspection.vocabulary import Component

PROPERTY = {
    "type": "object",
    "required": ["@type", "name", "unitCode"],
    "properties": {
        "@type": {"const": "PropertyValue"},
        "name": {"type": "string", "minLength": 1},
        "unitCode": {"enum": ["P1", "HUR", "MMT"]},
        "value": {"type": "number"},
        "minValue": {"type": "number"},
        "maxValue": {"type": "number"},
        "description": {"type": "string"},
    },
    "anyOf": [{"required": ["value"]}, {"required": ["minValue"]}, {"required": ["maxValue"]}],
    "additionalProperties": False,
}
PRODUCT = {
    "type": "object",
    "required": ["@context", "@type", "name", "serialNumber", "additionalProperty"],
    "properties": {
        "@context": {"const": "https://schema.org"},
        "@type": {"const": "Product"},
        "serialNumber": {"type": "string"},
        "additionalProperty": {"type": "array", "items": PROPERTY, "minItems": 1},
        "hasCertification": {
            "type": "object",
            "required": ["@type", "name", "certificationStatus", "issuedBy", "auditDate"],
            "properties": {
                "@type": {"const": "Certification"},
                "certificationStatus": {
                    "enum": ["https://schema.org/CertificationActive", "https://schema.org/CertificationInactive"]
                },
            },
        },
    },
}
"""What CHECKS asks of it, as a schema (schema.org has none of its own); the words are those of schema.org."""


def properties(text: str) -> dict[str, Any]:
    return {one["name"]: one for one in json.loads(text)["additionalProperty"]}


@pytest.mark.parametrize("name", ["ordinary", *lots.EXTREMES])
def test_any_sheet_has_a_product_in_the_words_of_schema_org(name: str) -> None:
    view = ordinary() if name == "ordinary" else lots.EXTREMES[name]()
    Draft202012Validator(PRODUCT).validate(json.loads(view.structured, parse_constant=pytest.fail))


def test_figures_carry_their_interval_and_their_unit() -> None:
    said = properties(ordinary().structured)
    links = said["Left links, percent worn"]
    assert (links["unitCode"], links["value"], links["description"]) == ("P1", 60.0, "measured")
    assert links["minValue"] < 60.0 < links["maxValue"]
    assert said["Left links, size"] == {
        "@type": "PropertyValue",
        "name": "Left links, size",
        "unitCode": "MMT",
        "value": 50.0,
    }
    assert said["Machine hours"]["unitCode"] == "HUR"
    assert said["Hours to the first limit"]["minValue"] > 0.0


def test_an_estimate_has_ends_and_no_middle_and_a_bound_no_upper_end() -> None:
    view = lot(told(reading(Component.LINK, about(40), at_least(80))))
    left, right = (properties(view.structured)[f"{side} links, percent worn"] for side in ("Left", "Right"))
    assert (left["minValue"], left["maxValue"]) == (30.0, 50.0)
    assert "value" not in left
    assert (right["minValue"], right.get("maxValue")) == (80.0, None)


def test_what_was_not_seen_has_no_property() -> None:
    assert not any("top roller" in name and name.startswith("Right") for name in properties(ordinary().structured))


def test_no_text_can_end_the_block_that_holds_it() -> None:
    evil = "</script><script>alert(1)</script><!-- \u2028 & ]]>"
    found = told(*measured())
    view = lot(replace(found, machine=replace(found.machine, serial=evil, maker=evil)))
    assert "<" not in view.structured
    assert ">" not in view.structured
    assert "&" not in view.structured
    assert json.loads(view.structured)["serialNumber"] == evil


def test_terms_make_a_certification_that_is_active_only_where_the_machine_passes() -> None:
    found = told(*measured())

    def certified(terms: Terms | None) -> Any:
        assessment = assess(found, lots.CHART, terms=terms)
        context = context_for(Dossier(found, Path("TEST-1"), lots.CHART, terms=terms), assessment, None, None)
        return json.loads(structured(context, "0" * 64)).get("hasCertification")

    outside = certified(Terms("Lantern Plan", Rule.GUARDED, {None: ((0.0, 10.0), (9000.0, 90.0))}))
    assert outside["name"] == "Lantern Plan"
    assert outside["certificationStatus"].endswith("Inactive")
    assert outside["description"] == "outside the terms"
    assert certified(None) is None
