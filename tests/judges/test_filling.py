"""Sheets that are nearly empty or end with a heading are refused; running heads and feet do not fill one."""

from pathlib import Path

import pytest
from judges import filling

from tracksworn.documents.render import engine

STYLE = (
    '@page { size: 100mm 100mm; margin: 10mm; @bottom-left { content: "A foot" } }'
    'body { font: 10pt "Barlow" } h2 { font-size: 12pt } div { height: 40mm; position: relative }'
    "p { margin: 0 } .low { position: absolute; bottom: 0 } .next { break-before: page }"
)
LOW = '<div><p>High.</p><p class="low">Low.</p></div>'
NEXT = '<p class="next">The next sheet.</p>'


@pytest.mark.parametrize(
    ("body", "found"),
    [
        (f"{LOW}{NEXT}", []),
        (f"<p>High.</p>{NEXT}", ["sheet 1 is filled to"]),
        (f"{LOW}<h2>Of what follows</h2>{NEXT}", ["sheet 1 ends with a heading"]),
        (f'{LOW}<p class="next">Second.</p>{NEXT}', ["sheet 2 is filled to"]),
        ('<p>High.</p><h2 style="float: left">Beside</h2>', ["sheet 1 ends with a heading"]),
    ],
)
def test_a_sheet_is_filled_and_ends_with_no_heading(body: str, found: list[str], tmp_path: Path) -> None:
    page = f'<html lang="en"><head><title>A sheet</title></head><body>{body}</body></html>'
    (tmp_path / "sheets.pdf").write_bytes(engine.lay_out(page, [STYLE], {}).write())
    faults = filling.faults(tmp_path / "sheets.pdf")
    assert len(faults) == len(found)
    assert all(fault.startswith(one) for fault, one in zip(faults, found, strict=True))
