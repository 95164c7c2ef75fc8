"""The cautions: all that must be said is said, each under a name that never changes."""

import pytest

from tracksworn.documents.words.cautions import CAUTIONS, cautions
from tracksworn.documents.words.language import Language


def test_identities_never_change() -> None:
    expected = ("grease", "spring", "block", "moving", "hot", "one-day", "stop", "first")
    assert tuple(caution.identity for caution in CAUTIONS) == expected
    assert tuple(caution.identity for caution in cautions(Language("de"))) == expected


@pytest.mark.parametrize(
    ("identity", "said"),
    [
        ("grease", "Keep clear of the track adjuster"),
        ("grease", "relief"),
        ("grease", "surgical emergency"),
        ("grease", "never refitted"),
        ("spring", "energy that kills"),
        ("spring", "No heat, welding or hammering"),
        ("spring", "hardened pins"),
        ("block", "block, lock out and tag"),
        ("block", "raised on its own boom or blade"),
        ("moving", "track's path"),
        ("moving", "excavator's swing"),
        ("moving", "No hands between chain, roller and sprocket"),
        ("moving", "6 m (20 ft)"),
        ("hot", "burning hot"),
        ("one-day", "one day and at the hours stated"),
        ("one-day", "not dismantled"),
        ("one-day", "no safety certificate"),
        ("one-day", "no permission to run a part past its limit"),
        ("stop", "cracked or seized"),
        ("stop", "cord shows"),
        ("first", "maker's manual, local codes and a licensed technician"),
        ("first", "local rules differ and come first"),
    ],
)
def test_what_must_be_said(identity: str, said: str) -> None:
    assert said in next(caution.text for caution in cautions(Language()) if caution.identity == identity)


def test_published_rules_stand_beside_them() -> None:
    """29 CFR 1926.600(a)(3)(i) and 1910.147(d)(5); 30 CFR 56.14105, 57.14105, 56.14211; HSE Safety Alert STSU 2-2017;
    TM 5-2410-233-23 WP 0119."""
    references = " ".join(caution.references for caution in cautions(Language()))
    for published in (
        "29 CFR 1926.600(a)(3)(i)",
        "29 CFR 1910.147(d)(5)",
        "56.14105",
        "57.14105",
        "56.14211",
        "STSU 2-2017",
        "TM 5-2410-233-23, WP 0119",
    ):
        assert published in references
