"""JSON Schemas of what a side's reading may be: one text, or a mapping by position or by place."""

from typing import Any

from tracksworn.inspection.file_types.fields import SCALAR
from tracksworn.inspection.vocabulary import ROLLERS_A_SIDE, PartPlace

MOST_POSITIONS = max(most for _, most in ROLLERS_A_SIDE.values())

ENTRY: dict[str, Any] = {
    "type": list(SCALAR),
    "examples": ["131.2, 131.0 mm", "by eye about 40 %", "not seen (guards fitted)"],
}
_POSITIONS: dict[str, Any] = {
    "patternProperties": {f"^({'|'.join(map(str, range(1, MOST_POSITIONS + 1)))})$": ENTRY},
    "additionalProperties": False,
}
BY_POSITION: dict[str, Any] = {"type": "object", "properties": {"others": ENTRY}, **_POSITIONS}
SIDE: dict[str, Any] = {
    "oneOf": [
        ENTRY,
        {
            "type": "object",
            "properties": {**{str(place): {"oneOf": [ENTRY, BY_POSITION]} for place in PartPlace}, "others": ENTRY},
            **_POSITIONS,
        },
    ]
}
JOINT_LIST: dict[str, Any] = {
    "oneOf": [{"type": list(SCALAR)}, {"type": "array", "items": {"type": ["integer", "string"]}}],
    "examples": ["3, 13, 23, 33"],
}
SHARED = {"Side": SIDE, "ByPosition": BY_POSITION, "Entry": ENTRY, "JointList": JOINT_LIST}
"""What stands in a schema at many places, and is written once."""
