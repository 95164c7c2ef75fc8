"""The line by which a file says what kind it is."""

from pydantic import PlainValidator, WithJsonSchema

from tracksworn.inspection.file_types.fields import text_of
from tracksworn.inspection.vocabulary import Kind
from tracksworn.inspection.written import Wrong, quoted


def another_kind(said: str, wanted: Kind) -> str:
    """What is wrong where a file of one kind stands for one of another."""
    return f"{quoted(said)} is another kind of file or version; `{wanted.header}` belongs here"


def header(kind: Kind) -> tuple[PlainValidator, WithJsonSchema]:
    """The value of `tracksworn:` in a file of that kind."""

    def read(node: object) -> str:
        text = text_of(node)
        if text != kind.header:
            raise Wrong(another_kind(text, kind))
        return str(text)

    return PlainValidator(read), WithJsonSchema({"const": kind.header})
