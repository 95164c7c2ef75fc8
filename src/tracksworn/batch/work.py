"""One lot, from its files to its documents, in memory."""

from collections.abc import Iterator
from functools import lru_cache

from tracksworn.batch.order import Made, Order, Templates, entry_of, failed, faulty
from tracksworn.documents.certificate.no_terms import NoTerms
from tracksworn.documents.render.files import Format, Sheet
from tracksworn.documents.render.own.templates import OwnTemplates
from tracksworn.documents.report import Assessed, assess_dossier, make_report
from tracksworn.documents.sale.assessed_lot import sale_lot
from tracksworn.inspection.faults import Fault, Faulty, failure
from tracksworn.inspection.reading import read_inspection
from tracksworn.inspection.sale_list import Listed


def make_lot(listed: Listed, order: Order) -> Made:
    """Read, assess and render one lot; whatever is wrong with it is in what is returned, nothing is raised."""
    try:
        return _made(listed, order)
    except Faulty as error:
        return faulty(listed, error.faults)
    except NoTerms as error:
        return faulty(listed, [Fault(listed.inspection, 1, 1, str(error))])
    except Exception as error:  # noqa: BLE001 - one lot must not keep the others from being made
        return failed(listed, failure(error))


def _made(listed: Listed, order: Order) -> Made:
    if listed.faults:
        raise Faulty(listed.faults)
    dossier = read_inspection(listed.inspection).in_sale(listed.lot)
    assessed = Assessed(dossier, assess_dossier(dossier))
    files: dict[str, bytes] = {}
    for document in order.documents_of(listed):
        for formats, sealed in _apart(order):
            files |= make_report(
                assessed,
                document=Sheet(document),
                formats=formats,
                language=order.language,
                units=order.units,
                paper=order.paper,
                templates=_own(order.templates),
                sealed=sealed,
            )
    lot = sale_lot(entry_of(listed), assessed, files, language=order.language)
    return Made(listed, lot, files, dossier.inputs, warnings=tuple(map(str, dossier.warnings)))


def _apart(order: Order) -> Iterator[tuple[list[str], bool]]:
    """The formats, and whether they say that their file is sealed, which only a PDF is."""
    sealed = [one for one in order.formats if order.sealed and one == Format.PDF]
    plain = [one for one in order.formats if one not in sealed]
    yield from ((formats, made_so) for formats, made_so in ((plain, False), (sealed, True)) if formats)


@lru_cache(maxsize=2)
def _own(templates: Templates | None) -> OwnTemplates | None:
    return None if templates is None else OwnTemplates(templates.folder, dict(templates.texts))
