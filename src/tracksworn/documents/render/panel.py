"""Where a document shows who answers for it, told in the PDF: a seal puts its field there."""

from typing import Final

import pikepdf

Area = tuple[float, ...]
"""Left, bottom, right and top in points from a sheet's lower left corner."""
PANEL: Final = "seal"
"""The id of that element in a template, and the destination of that name in the PDF."""


def show_panel(pdf: pikepdf.Pdf, there: tuple[int, Area] | None) -> None:
    """Have the destination show the panel's area, not its corner alone (ISO 32000-1, 12.3.2.2)."""
    if there is None:
        return
    sheet, area = there
    shown = pikepdf.Array([pdf.pages[sheet].obj, pikepdf.Name.FitR, *area])
    pikepdf.NameTree(pdf.Root.Names.Dests)[PANEL] = shown


def panel_in(pdf: pikepdf.Pdf) -> tuple[pikepdf.Object, pikepdf.Array] | None:
    """The page and the area of the panel in a PDF that has one."""
    try:
        page, fit, *area = pikepdf.NameTree(pdf.Root.Names.Dests)[PANEL].as_list()
    except (AttributeError, KeyError, ValueError):
        return None
    return (page, pikepdf.Array(area)) if fit == "/FitR" and len(area) == len("lbrt") else None
