"""Files within a PDF, associated with it as a whole (ISO 19005-3, 6.8; ISO 32000-2, 14.13)."""

from collections.abc import Sequence

import pikepdf

from tracksworn.documents.attached import Attachment
from tracksworn.documents.render.files import Refused


def attach(pdf: pikepdf.Pdf, attachments: Sequence[Attachment], day: str) -> None:
    """Put the files into the PDF in their order, each of that day, ISO 8601.

    Raises Refused where two have one name.
    """
    stamp = f"D:{day.replace('-', '')}"
    for one in attachments:
        if one.name in pdf.attachments:
            raise Refused(f"two files of this document have the name {one.name!r}; give one of them another name")
        pdf.attachments[one.name] = pikepdf.AttachedFileSpec(
            pdf,
            one.content,
            filename=one.name,
            description=one.what,
            mime_type=one.media_type,
            relationship=pikepdf.Name(f"/{one.relationship}"),
            creation_date=stamp,
            mod_date=stamp,
        )
    if attachments:
        pdf.Root.AF = pikepdf.Array([pdf.attachments[one.name].obj for one in attachments])
