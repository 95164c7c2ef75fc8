"""What may stand under `observations` and `photos`."""

from typing import Annotated

from pydantic import Field, PlainValidator

from tracksworn.inspection import spots
from tracksworn.inspection.file_types.base import Each, FileType, Needed, given
from tracksworn.inspection.file_types.fields import (
    AnyGrade,
    LengthOrNought,
    Markdown,
    RelativePath,
    ShortText,
    SignWords,
    scalar,
    text_of,
)
from tracksworn.inspection.model import Observation, Photo, Spot
from tracksworn.inspection.vocabulary import Sign
from tracksworn.inspection.written import FaultList

AnySpot = Annotated[
    Spot, PlainValidator(lambda node: spots.spot(text_of(node))), scalar(examples=["left bottom roller 3"])
]
SpotOrSide = Annotated[
    Spot,
    PlainValidator(lambda node: spots.spot(text_of(node), side_alone=True)),
    scalar(examples=["left", "left bottom roller 3"]),
]


class ObservationFile(FileType):
    """Something seen and graded."""

    at: Needed[AnySpot] = Field(description="side, component, number and place, as much of these as is known")
    seen: Needed[SignWords] = Field(description="what was seen: one word, or a list")
    grade: AnyGrade | None = Field(None, description="how much of it; none records that one looked and saw nothing")
    size: LengthOrNought | None = Field(None, description="a size, where one was taken")
    note: Markdown | None = Field(None, description="a note in Markdown")
    photos: Each[list[RelativePath]] | None = Field(None, description="photos that show it")

    def rules(self, faults: FaultList) -> None:
        """`other` says in a note what it is; only end play may be nought."""
        seen = self.seen or ()
        if Sign.OTHER in seen and self.written("note") is None:
            faults.add(self.where_key("seen"), "`other` needs a `note` that says what was seen")
        if self.size == 0 and seen and Sign.END_PLAY not in seen:
            faults.add(self.where_key("size"), "a size is above nought; only end play may be nought")

    def observation(self) -> Observation:
        """The plain value."""
        return Observation(given(self.at), given(self.seen), self.grade, self.size, self.note, tuple(self.photos or ()))


class PhotoFile(FileType):
    """A photo that belongs to no single observation."""

    file: Needed[RelativePath] = Field(description="the photo, from this file's folder")
    shows: SpotOrSide | None = Field(None, description="what it shows: a side, or a part as under `at`")
    caption: ShortText | None = Field(None, description="what a reader should know of it")

    def photo(self) -> Photo:
        """The plain value."""
        return Photo(given(self.file), self.shows, self.caption)
