"""One lot, from its files to its documents, in memory."""

from tracksworn.batch.order import Made, Order
from tracksworn.inspection.sale_list import Listed


def make_lot(listed: Listed, order: Order) -> Made:
    """Read, assess and render one lot; whatever is wrong with it is in what is returned, nothing is raised."""
    raise NotImplementedError
