"""From the lots of a sale to the view of its index and its catalogue."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from hashlib import sha256
from typing import Final

from tracksworn.assessment.fleet import fleet
from tracksworn.documents.comparison.identification import COMPILED, WHOSE_TERMS
from tracksworn.documents.comparison.view import Identity
from tracksworn.documents.fingerprint import first_digits
from tracksworn.documents.full.identification import NEUTRAL_ACCENT
from tracksworn.documents.full.view import Branding, Labelled, Signature
from tracksworn.documents.legible import made_legible
from tracksworn.documents.sale import told
from tracksworn.documents.sale.headings import headings
from tracksworn.documents.sale.lot import SaleLot
from tracksworn.documents.sale.lots import lot_view
from tracksworn.documents.sale.named import natural
from tracksworn.documents.sale.ranks import ranks
from tracksworn.documents.sale.tables import write_lines
from tracksworn.documents.sale.view import Sale
from tracksworn.documents.typefaces import Face
from tracksworn.documents.words import labels
from tracksworn.documents.words.cautions import cautions
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import C_, N_, NP_, Language
from tracksworn.inspection.dossier import Stationery

WITHOUT_NUMBER: Final = NP_("{n} without a lot number", "{n} without a lot number")
STEM: Final = "catalogue"
UNDATED: Final = date(1980, 1, 1)
"""Of an index without any lot that could be read: the first day that a file in a ZIP archive can have."""


def sale(
    lots: Sequence[SaleLot],
    *,
    stationery: Stationery | None = None,
    title: str = "",
    language: str | None = None,
    paper: str | None = None,
) -> Sale:
    """All lots as a reader sees them, in the look of one firm, which gives language and paper where not asked for.

    `title` is what the sale is called. The fingerprint is the SHA-256 of the lots' `index.jsonl`.
    """
    digits = sha256(write_lines(lots)).hexdigest()
    fonts = () if stationery is None else stationery.fonts
    (lots, stationery, title), faces = made_legible((tuple(lots), stationery, title), fonts)
    figures = Figures(language=Language(language or _language(lots, stationery)))
    teller = _Teller(lots, stationery, figures)
    counted = fleet([lot.standing for lot in lots])
    return Sale(
        branding=teller.branding(paper, faces),
        identification=teller.identification(title),
        headings=headings(figures.language),
        summary=told.summary(lots, counted, figures),
        lots=tuple(lot_view(lot, places, figures) for lot, places in zip(lots, ranks(lots), strict=True)),
        distribution=told.distribution(counted, figures),
        stages=told.stages(counted, figures),
        looks=told.reasons(lots, counted, figures),
        thresholds=told.thresholds(figures),
        legend=told.legend(figures),
        no_permission=told.no_permission(figures),
        machines=told.machines(lots, figures),
        standing_terms=teller.standing_terms,
        whose_terms=figures.language.say(WHOSE_TERMS, firm=teller.firm),
        cautions=cautions(figures.language),
        signature=teller.signature(),
        foot=teller.foot(digits),
        fingerprint=digits,
        end=figures.language.say(N_("End of the catalogue of {lots}"), lots=teller.number),
    )


def _language(lots: Sequence[SaleLot], stationery: Stationery | None) -> str:
    """The letterhead's, else that of the first lot that could be read."""
    if stationery is not None:
        return stationery.letterhead.language
    return next((lot.read.language for lot in lots if lot.read is not None), "en")


def day_of(lots: Sequence[SaleLot]) -> date:
    """The date of the index: that of its latest document."""
    return max((lot.read.issued for lot in lots if lot.read is not None), default=UNDATED)


@dataclass(frozen=True, slots=True)
class _Teller:
    lots: Sequence[SaleLot]
    stationery: Stationery | None
    figures: Figures

    @property
    def firm(self) -> str:
        """Whose index it is; without a letterhead the inspectors'."""
        return self.inspectors if self.stationery is None else self.stationery.letterhead.firm

    @property
    def inspectors(self) -> str:
        return ", ".join(dict.fromkeys(lot.read.inspector for lot in self.lots if lot.read is not None)) or "–"

    @property
    def number(self) -> str:
        return self.figures.language.count(*told.LOTS, len(self.lots))

    @property
    def standing_terms(self) -> str:
        return "" if self.stationery is None else self.stationery.letterhead.standing_terms or ""

    def branding(self, paper: str | None, faces: tuple[Face, ...]) -> Branding:
        letterhead = None if self.stationery is None else self.stationery.letterhead
        chosen = paper or (letterhead.paper if letterhead else "A4")
        contact = (letterhead.email, letterhead.web, letterhead.telephone) if letterhead else ()
        return Branding(
            firm=self.firm,
            accent=letterhead.accent if letterhead else NEUTRAL_ACCENT,
            mark=None if self.stationery is None else self.stationery.mark,
            address=letterhead.address if letterhead else (),
            contact=tuple(one for one in contact if one),
            paper="letter" if chosen == "letter" else "A4",
            language=self.figures.language.code,
            faces=faces,
        )

    def identification(self, title: str) -> Identity:
        say = self.figures.language.say
        return Identity(
            stem=STEM,
            title=say(N_("Undercarriages, lot by lot")),
            number=self.number,
            addressed=say(N_("By wear alone, not by price, age or work")),
            strip=(
                *([Labelled(say(N_("Sale")), title, yields="partly")] if title else ()),
                Labelled(say(N_("Lots")), self._which(), yields="partly"),
                Labelled(say(C_("of lots", "Inspected")), told.days(self.lots, self.figures) or "–"),
                Labelled(say(N_("By")), self.inspectors, yields="partly"),
            ),
            issued=day_of(self.lots).isoformat(),
        )

    def _which(self) -> str:
        """From the lowest number to the highest, and how many have none."""
        language, numbers = self.figures.language, sorted({lot.lot for lot in self.lots if lot.lot}, key=natural)
        without = sum(not lot.lot for lot in self.lots)
        said = [language.say(N_("{low} to {high}"), low=numbers[0], high=numbers[-1])] if len(numbers) > 1 else numbers
        if without:
            said = [*said, language.count(*WITHOUT_NUMBER, without)]
        return labels.clauses(said, language) or "–"

    def signature(self) -> Signature:
        say = self.figures.language.say
        signatory = None if self.stationery is None else self.stationery.letterhead.signatory
        signed = Signature(
            name=say(N_("not named")) if signatory is None else signatory.name,
            title="" if signatory is None else signatory.title or "",
            firm="" if signatory is None else self.firm,
            day=say(N_("from inspections up to {day}"), day=self._latest()),
            statement=say(COMPILED),
        )
        return replace(signed, firm="") if signed.firm == signed.name else signed

    def _latest(self) -> str:
        inspected = [lot.read.inspected for lot in self.lots if lot.read is not None]
        return self.figures.day(max(inspected)) if inspected else "–"

    def foot(self, digits: str) -> tuple[Labelled, ...]:
        say = self.figures.language.say
        methods = sorted({lot.read.method for lot in self.lots if lot.read is not None})
        compiled = say(N_("{name}, from inspections up to {day}"), name=self.signature().name, day=self._latest())
        return (
            Labelled(say(N_("Document")), say(N_("Undercarriages, lot by lot"))),
            Labelled(say(N_("Arithmetic")), say(N_("method {number}"), number=", ".join(map(str, methods)) or "–")),
            Labelled(say(N_("Fingerprint")), first_digits(digits), say(N_("not sealed"))),
            Labelled(say(N_("Compiled by")), compiled, yields="partly"),
        )
