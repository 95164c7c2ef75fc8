"""What workers of a test's cluster do in the place of making a lot; they find it here by name."""

import os
import signal
import time

from tracksworn.batch.order import Made, Order
from tracksworn.batch.work import make_lot
from tracksworn.inspection.sale_list import Listed


def noted(listed: Listed, order: Order) -> Made:
    """The lot, with a note of who made it; the second lot waits until it may go on."""
    folder = listed.inspection.parents[1]
    with (folder / "made.txt").open("a") as notes:
        notes.write(f"{listed.place} {os.getpid()}\n")
    while listed.place == 2 and not (folder / "go-on").exists():
        time.sleep(0.02)
    return make_lot(listed, order)


def deadly(listed: Listed, order: Order) -> Made:
    """The third lot ends the process that makes it."""
    if listed.place == 3:
        os.kill(os.getpid(), signal.SIGKILL)
    return make_lot(listed, order)
