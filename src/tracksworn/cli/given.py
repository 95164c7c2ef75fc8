"""What may be given on the command line: words of an enumeration, several of them by comma, and paths."""

from collections.abc import Iterable
from enum import StrEnum
from pathlib import Path
from typing import Any, TypeVar

import click
from click.shell_completion import CompletionItem

from tracksworn.inspection.languages import LANGUAGES, not_a_language

E = TypeVar("E", bound=StrEnum)


class OneOf(click.Choice[E]):
    """A word of an enumeration; blanks in it may be typed as hyphens, as a shell completes them."""

    def normalize_choice(self, choice: object, ctx: click.Context | None) -> str:  # noqa: ARG002
        """The word as it is shown and completed."""
        return str(choice.value if isinstance(choice, StrEnum) else choice).replace(" ", "-")


class SomeOf(click.ParamType[tuple[E, ...]]):
    """One or more words of an enumeration with commas between them, each taken once."""

    name = "list"

    def __init__(self, words: Iterable[E]) -> None:
        self.words = {word.value: word for word in words}

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[E, ...]:
        """The words in the order given."""
        parts = [part.strip() for part in str(value).split(",")]
        for part in parts:
            if part not in self.words:
                self.fail(f"{part!r} is not one of {', '.join(self.words)}; several have commas between", param, ctx)
        return tuple(dict.fromkeys(self.words[part] for part in parts))

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:  # noqa: ARG002
        """What may follow the last comma."""
        before, comma, begun = incomplete.rpartition(",")
        left = [word for word in self.words if word not in before.split(",") and word.startswith(begun)]
        return [CompletionItem(f"{before}{comma}{word}") for word in left]


class Title(click.ParamType[str]):
    """A name on one line, as pages print it."""

    name = "text"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The text without blanks around it."""
        if not str(value).isprintable():
            self.fail(
                f"{str(value)!r} has characters that cannot be printed; write it in UTF-8, on one line", param, ctx
            )
        return str(value).strip()


class LanguageTag(click.ParamType[str]):
    """A language that documents can be in."""

    name = "language"

    def get_metavar(self, param: click.Parameter, ctx: click.Context) -> str:  # noqa: ARG002
        """The languages, in the help."""
        return f"[{'|'.join(LANGUAGES)}]"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The tag as it was given."""
        if wrong := not_a_language(str(value)):
            self.fail(f"{str(value)!r} {wrong}", param, ctx)
        return str(value)

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:  # noqa: ARG002
        """The languages."""
        return [CompletionItem(one) for one in LANGUAGES if one.startswith(incomplete)]


class GivenPath(click.Path):
    """A path that is not empty. Whether it can be read is told by who reads it, as a failure of the machine."""

    def __init__(self, *, exists: bool = False, file_okay: bool = True, dir_okay: bool = True) -> None:
        super().__init__(path_type=Path, readable=False, exists=exists, file_okay=file_okay, dir_okay=dir_okay)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The path."""
        if value == "":
            self.fail("a path is missing here", param, ctx)
        return super().convert(value, param, ctx)
