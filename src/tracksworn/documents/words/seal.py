"""What a reader of the file, or one who has it read aloud, is told of its signature fields."""

from typing import Final

from tracksworn.documents.words.language import N_

SEAL: Final = N_("Seal: electronic signature over the whole file")
COUNTERSIGNATURE: Final = N_("Countersignature: room for one further electronic signature")
ARCHIVE_TIME: Final = N_("Archive timestamp: room for an authority to attest anew that the seal was there")
