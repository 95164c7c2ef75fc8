"""JSON Schemas (2020-12) of every kind of file, generated from the file types, for editors and other tools.

Every scalar may be string, number or boolean, as YAML editors type them. A schema says what keys there are, which are
required and what each means; the notation inside a value is checked by the program alone.
"""

import json
import sys
from pathlib import Path
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from tracksworn.inspection.file_types.reading_schema import SHARED
from tracksworn.inspection.loading import FILE_TYPES
from tracksworn.inspection.shipped import SHIPPED
from tracksworn.inspection.vocabulary import Kind

DIALECT = "https://json-schema.org/draft/2020-12/schema"


class _Plain(GenerateJsonSchema):
    """Without nulls and defaults, since a key that has no value is left out."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def field_title_should_be_set(self, schema: object) -> bool:  # noqa: ARG002 - keys are their own titles
        return False


def schema(kind: Kind) -> dict[str, Any]:
    """The JSON Schema of a kind of file."""
    generated = FILE_TYPES[kind].model_json_schema(by_alias=True, schema_generator=_Plain)
    parts: dict[str, Any] = {key: _with_references(part) for key, part in generated.items()}
    if kind is Kind.INSPECTION:
        shared = {name: _with_references(part, but=name) for name, part in SHARED.items()}
        parts["$defs"] = {**shared, **parts["$defs"]}
    return {"$schema": DIALECT, **parts, "title": f"tracksworn {kind.header}"}


def _with_references(node: Any, but: str = "") -> Any:
    """The same schema, in which what is shared is named rather than repeated."""
    if isinstance(node, list):
        return [_with_references(item) for item in node]
    if not isinstance(node, dict):
        return node
    for name, part in SHARED.items():
        if name != but and all(node.get(key) == value for key, value in part.items()):
            return {"$ref": f"#/$defs/{name}", **{key: value for key, value in node.items() if key not in part}}
    return {key: _with_references(value) for key, value in node.items()}


def as_json(kind: Kind) -> str:
    """The JSON Schema of a kind of file, as it is shipped."""
    return json.dumps(schema(kind), indent=2, ensure_ascii=False) + "\n"


def write(folder: Path) -> None:
    """Write the schemas of every kind: `python -m tracksworn.inspection.schemas`."""
    folder.mkdir(exist_ok=True)
    for kind in Kind:
        (folder / f"{kind}.json").write_text(as_json(kind), encoding="utf-8")


if __name__ == "__main__":
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else SHIPPED)
