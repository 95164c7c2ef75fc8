"""The fingerprint, held to the published vectors of what it is made of."""

import hashlib
import json

import rfc8785
from hypothesis import given
from hypothesis import strategies as st
from long_example import CHART, FIRM, INSPECTION

from tracksworn.assessment.assess import assess
from tracksworn.documents.fingerprint import fingerprint, first_digits
from tracksworn.documents.statement import statement

FILES = {"charts/hollin.yaml": "11" * 32, "TEST-1/inspection.yaml": "22" * 32}


def test_sha_256_of_abc() -> None:
    """FIPS 180-4, from memory."""
    digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert hashlib.sha256(b"abc").hexdigest() == digest


def test_canonical_json_of_the_standards_example() -> None:
    """RFC 8785, the example of 3.2.2 and 3.2.3."""
    written = (
        r'{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],'
        r'"string":"\u20ac$\u000F\u000aA\u0027\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}'
    )
    canonical = (
        r'{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],'
        r'"string":"€$\u000f\nA' + "'" + r'B\"\\\\\"/"}'
    )
    assert rfc8785.dumps(json.loads(written)) == canonical.encode()


def test_minus_nought_is_nought() -> None:
    """RFC 8785, 3.2.2.3 by ECMAScript's rules."""
    assert rfc8785.dumps([-0.0]) == b"[0]"


def test_the_fingerprint_by_hand() -> None:
    by_hand = hashlib.sha256(b'{"assessment":{"a":1.5,"b":null},"files":{"x.yaml":"00"}}').hexdigest()
    assert fingerprint({"b": None, "a": 1.5}, {"x.yaml": "00"}) == by_hand


def test_it_covers_every_figure_and_every_file() -> None:
    said = statement(assess(INSPECTION, CHART, FIRM))
    digits = fingerprint(said, FILES)
    changed = json.loads(json.dumps(said))
    changed["components"][0]["percent_worn"] += 1e-12
    assert len(digits) == 64
    assert fingerprint(changed, FILES) != digits
    assert fingerprint(said, FILES | {"TEST-1/inspection.yaml": "23" * 32}) != digits
    assert fingerprint(said, {**FILES, "more.yaml": "33" * 32}) != digits


@given(st.permutations(list(FILES.items())))
def test_the_order_of_files_does_not_matter(files: list[tuple[str, str]]) -> None:
    assert fingerprint({}, dict(files)) == fingerprint({}, FILES)


def test_a_foot_shows_its_first_digits_in_groups() -> None:
    digits = "a41c09e75d2f88b3" + "0" * 48
    assert first_digits(digits) == "a41c 09e7 5d2f 88b3"
