"""A letterhead's file."""

import re
from typing import Annotated, get_args

from pydantic import Field, PlainValidator

from tracksworn.inspection.contrast import LEAST_CONTRAST, on_white
from tracksworn.inspection.file_types.base import Each, FileType, Needed, given
from tracksworn.inspection.file_types.fields import (
    Address,
    Length,
    Markdown,
    Points,
    RelativePath,
    ShortText,
    choice,
    scalar,
    text_of,
)
from tracksworn.inspection.file_types.header import header
from tracksworn.inspection.languages import LANGUAGES, all_languages, not_a_language
from tracksworn.inspection.letterhead import Assumed, Letterhead, Paper, Signatory, Units
from tracksworn.inspection.vocabulary import Kind
from tracksworn.inspection.written import Wrong, quoted


def _accent(node: object) -> str:
    text = text_of(node)
    if not re.fullmatch(r"#[0-9A-Fa-f]{6}", text):
        raise Wrong(f'{quoted(text)} is no colour; write `"#1f5c6b"`: six hexadecimal digits behind `#`, in quotes')
    contrast = on_white(text)
    if contrast < LEAST_CONTRAST:
        raise Wrong(f"{quoted(text)} has a contrast of {contrast:.1f} : 1 on white; 4.5 : 1 is the least (WCAG 2.2)")
    return text.lower()


def _web(node: object) -> str:
    text = text_of(node)
    if not re.fullmatch(r"https?://[^\s/?#]+[^\s]*", text) or len(text) > 500:
        raise Wrong(f"{quoted(text)} is no web address; it begins with `https://`")
    return str(text)


def _email(node: object) -> str:
    text = text_of(node)
    if not re.fullmatch(r"[^\s@<>]+@[^\s@<>]+", text) or len(text) > 254:
        raise Wrong(f"{quoted(text)} is no e-mail address")
    return str(text)


def _language(node: object) -> str:
    text = text_of(node)
    if wrong := not_a_language(text):
        raise Wrong(f"{quoted(text)} {wrong}")
    return str(text)


WebAddress = Annotated[str, PlainValidator(_web), scalar(examples=["https://millrace.example/r/"])]


class ContactFile(FileType):
    """How to reach the firm."""

    email: Annotated[str, PlainValidator(_email), scalar(examples=["desk@millrace.example"])] | None = Field(
        None, description="e-mail address"
    )
    web: WebAddress | None = Field(None, description="web address")
    telephone: ShortText | None = Field(None, description="telephone number")


class SignatoryFile(FileType):
    """Who answers for the document."""

    name: Needed[ShortText] = Field(description="the signatory's name")
    title: ShortText | None = Field(None, description="the signatory's title")


class AssumedFile(FileType):
    """The firm's own values in place of the program's."""

    inspector: Points | None = Field(None, description="standard uncertainty of an inspector, such as 1.4 points")
    seat: Points | None = Field(None, description="standard uncertainty of the seat of the gauge, in points")
    spread: Points | None = Field(None, description="usual standard deviation from joint to joint, in points")
    instrument: Length | None = Field(None, description="half-width of the error of a gauge without figures")
    basis: ShortText | None = Field(None, description="what these values rest on, such as a repeat study")

    def assumed(self) -> Assumed:
        """The plain value."""
        return Assumed(self.inspector, self.seat, self.spread, self.instrument, self.basis)


class LetterheadFile(FileType):
    """How a firm's documents look and who signs them."""

    tracksworn: Needed[Annotated[str, *header(Kind.LETTERHEAD)]] = Field(
        description="the kind of file and its version: `letterhead 1`"
    )
    firm: Needed[ShortText] = Field(description="the firm's name")
    address: Address | None = Field(None, description="the firm's address, a list of lines")
    contact: ContactFile | None = Field(None, description="how to reach the firm")
    mark: RelativePath | None = Field(None, description="PNG, JPEG or SVG in this file's folder")
    accent: Annotated[str, PlainValidator(_accent), scalar(examples=["#1f5c6b"])] | None = Field(
        None, description="the firm's colour; its contrast on white is at least 4.5 : 1"
    )
    paper: Annotated[Paper, *choice(*get_args(Paper))] | None = Field(None, description="A4 where absent")
    units: Annotated[Units, *choice(*get_args(Units))] | None = Field(None, description="mm where absent")
    language: Annotated[str, PlainValidator(_language), scalar(examples=[*LANGUAGES, "en-US"])] | None = Field(
        None, description=f"language of the documents: {all_languages('or')}, also with a country; en where absent"
    )
    fonts: Each[list[RelativePath]] | None = Field(None, description="further font files in this file's folder")
    records_at: WebAddress | None = Field(None, description="web address where a number leads, for the QR")
    standing_terms: Markdown | None = Field(None, description="Markdown, printed before the signature")
    signatory: Needed[SignatoryFile] = Field(description="who answers for the document: at least a `name`")
    assumed: AssumedFile | None = Field(None, description="the firm's own values in place of the program's")

    def letterhead(self) -> Letterhead:
        """The plain value of a file without faults."""
        contact = self.contact
        signatory = given(self.signatory)
        plain = Letterhead(firm=given(self.firm), signatory=Signatory(given(signatory.name), signatory.title))
        return Letterhead(
            firm=plain.firm,
            signatory=plain.signatory,
            address=self.address or (),
            email=contact.email if contact else None,
            web=contact.web if contact else None,
            telephone=contact.telephone if contact else None,
            mark=self.mark,
            accent=self.accent or plain.accent,
            paper=self.paper or plain.paper,
            units=self.units or plain.units,
            language=self.language or plain.language,
            fonts=tuple(self.fonts or ()),
            records_at=self.records_at,
            standing_terms=self.standing_terms,
            assumed=self.assumed.assumed() if self.assumed else Assumed(),
        )
