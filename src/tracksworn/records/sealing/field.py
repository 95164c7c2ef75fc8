"""Empty signature fields that a sealed file keeps its standards with.

A field that stands nowhere in the structure tree breaks PDF/UA-1 (ISO 14289-1, 7.18.1 and 7.18.4), one that is hidden
breaks PDF/A-3 (ISO 19005-3, 6.3.2). So each is put in before anything is signed: printed and locked (ISO 32000-1,
table 165), with words for who has the page read aloud, and as a Form in the structure tree.
"""

from enum import StrEnum
from typing import Final

PRINTED_AND_LOCKED: Final = 132


class Field(StrEnum):
    """The names of the fields."""

    SEAL = "seal"
    COUNTERSIGNATURE = "countersignature"
    ARCHIVE_TIME = "archive-time"
