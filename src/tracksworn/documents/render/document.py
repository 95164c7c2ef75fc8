"""What every document has in common, so that one renderer can lay out any of them."""

from typing import Protocol

from tracksworn.documents.full.view import Branding, Labelled, Signature
from tracksworn.documents.words.cautions import Caution


class Identity(Protocol):
    """Which document it is."""

    @property
    def stem(self) -> str:
        """The name of its files without format."""

    @property
    def title(self) -> str:
        """What it is called."""

    @property
    def number(self) -> str:
        """Its own number, or what stands for it."""

    @property
    def addressed(self) -> str:
        """For whom or what for; may be empty."""

    @property
    def strip(self) -> tuple[Labelled, ...]:
        """What stands under every sheet's head."""

    @property
    def issued(self) -> str:
        """Its date, ISO 8601."""


class Words(Protocol):
    """Fixed words that every document needs."""

    @property
    def sheet(self) -> str:
        """Label of a sheet's number."""

    @property
    def of(self) -> str:
        """Between a sheet's number and their count."""


class Document(Protocol):
    """The view of any document."""

    @property
    def branding(self) -> Branding:
        """How it looks."""

    @property
    def identification(self) -> Identity:
        """Which document it is."""

    @property
    def headings(self) -> Words:
        """Its fixed words."""

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """The cautions, all of them."""

    @property
    def signature(self) -> Signature:
        """Who answers for it."""

    @property
    def standing_terms(self) -> str:
        """Markdown of the firm's own; may be empty."""

    @property
    def foot(self) -> tuple[Labelled, ...]:
        """What stands at every sheet's foot."""

    @property
    def fingerprint(self) -> str:
        """Sixty-four hexadecimal digits."""
