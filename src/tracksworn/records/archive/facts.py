"""What a document is about, in the file that lies beside it for whoever comes without this program."""

import json
from datetime import date
from typing import Final

import rfc8785

from tracksworn.assessment.model import Stage
from tracksworn.records.archive.held import Facts

KIND: Final = "record 1"


def facts_json(facts: Facts, sha256: str) -> bytes:
    """The facts for somebody without this program, in the RFC 8785 form; `sha256` is that of the document."""
    return rfc8785.dumps(
        {
            "tracksworn": KIND,
            "number": facts.number,
            "revision": facts.revision,
            "document": facts.document or None,
            "sha256": sha256,
            "maker": facts.maker,
            "model": facts.model,
            "serial": facts.serial,
            "inspector": facts.inspector,
            "firm": facts.firm,
            "inspected": facts.inspected.isoformat(),
            "issued": facts.issued.isoformat(),
            "stage": facts.stage and str(facts.stage),
            "words": facts.words,
        }
    )


def facts_of(content: bytes) -> Facts | None:
    """The facts as they were written, or None where that cannot be read."""
    try:
        plain = json.loads(content)
        return Facts(
            number=plain["number"],
            revision=plain["revision"],
            maker=plain["maker"],
            model=plain["model"],
            serial=plain["serial"],
            inspector=plain["inspector"],
            firm=plain["firm"],
            inspected=date.fromisoformat(plain["inspected"]),
            issued=date.fromisoformat(plain["issued"]),
            stage=plain["stage"] and Stage(plain["stage"]),
            words=plain["words"],
            document=plain.get("document") or "",
        )
    except (ValueError, KeyError, TypeError):
        return None
