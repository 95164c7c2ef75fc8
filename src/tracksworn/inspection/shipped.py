"""The JSON Schemas as they are shipped; `schemas` generates them."""

from pathlib import Path

from tracksworn.inspection.vocabulary import Kind

SHIPPED = Path(__file__).with_name("schemas")


def shipped_schema(kind: Kind) -> str:
    """The JSON Schema of a kind of file."""
    return (SHIPPED / f"{kind}.json").read_text(encoding="utf-8")
