"""The kinds of document, each once: its name, its view, the module that lays it out. None is imported for another."""

from dataclasses import dataclass
from importlib import import_module
from typing import Any, Final

from tracksworn.documents.render.document import Document
from tracksworn.documents.render.kind import Kind


@dataclass(frozen=True, slots=True)
class Where:
    """Where a kind of document stands. `name` is that of its templates; `room` the folder of its view."""

    name: str
    room: str
    view: str
    module: str  # beside this one; it has the kind under the same name in capitals

    def load(self) -> Kind[Any]:
        """The kind itself."""
        kind: Kind[Any] = getattr(import_module(f"{__package__}.{self.module}"), self.module.upper())
        return kind

    def load_view(self) -> type:
        """The class of its view."""
        view: type = getattr(import_module(f"tracksworn.documents.{self.room}.view"), self.view)
        return view


KINDS: Final = (
    Where("full", "full", "FullReport", "full_report"),
    Where("listing", "listing", "Listing", "listing"),
    Where("certificate", "certificate", "Certificate", "certificate"),
    Where("compare", "comparison", "Comparison", "comparison"),
)


def kind_of(view: Document) -> Kind[Any]:
    """How a view becomes pages."""
    return next(one for one in KINDS if one.view == type(view).__name__).load()
