"""The kinds of file, and the first line by which each is known."""

from enum import StrEnum

from pydantic import PlainValidator, WithJsonSchema

from tracksworn.inspection.file_types.fields import text_of
from tracksworn.inspection.written import Wrong, quoted


class Kind(StrEnum):
    """The kinds of file, named as on the command line."""

    INSPECTION = "inspection"
    CHART = "chart"
    LETTERHEAD = "letterhead"
    PRICES = "prices"
    TERMS = "terms"

    @property
    def header(self) -> str:
        """What `tracksworn:` says in a file of this kind."""
        return "wear chart 1" if self is Kind.CHART else f"{self.value} 1"


def header(kind: Kind) -> tuple[PlainValidator, WithJsonSchema]:
    """The value of `tracksworn:` in a file of that kind."""

    def read(node: object) -> str:
        text = text_of(node)
        if text != kind.header:
            raise Wrong(f"{quoted(text)} is another kind of file or version; `{kind.header}` belongs here")
        return str(text)

    return PlainValidator(read), WithJsonSchema({"const": kind.header})
