"""Options that several commands have, each defined once."""

from typing import get_args

import click

from tracksworn.cli.given import GivenPath, LanguageTag, SomeOf
from tracksworn.documents.render.files import Format
from tracksworn.inspection.languages import all_languages
from tracksworn.inspection.letterhead import Paper, Units

formats = click.option(
    "--format",
    "formats",
    type=SomeOf(Format),
    metavar="[pdf,html,md,png]",
    default=Format.PDF.value,
    show_default=True,
    help="What to write: pdf, html (one file), md (with its pictures beside it) or png; several with commas between.",
)
units = click.option(
    "--units", type=click.Choice(get_args(Units)), help="Units of sizes; else the letterhead's, else mm."
)
paper = click.option(
    "--paper", type=click.Choice(get_args(Paper)), help="Size of the sheets; else the letterhead's, else A4."
)
templates = click.option(
    "--templates",
    type=GivenPath(file_okay=False),
    metavar="DIR",
    help="A folder of your own templates and style sheets; what may stand in it is told in templates/README.md.",
)
language = click.option(
    "--language",
    type=LanguageTag(),
    help=f"Language of the document: {all_languages('or')}, also with a country as in en-US; "
    "else the letterhead's, else en.",
)
