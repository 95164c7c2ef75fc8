"""Libraries tell their logs what they make of certificates and damaged files; a user is told by us, in a sentence."""

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

_TALKERS: Final = ("pyhanko", "pyhanko_certvalidator", "pikepdf")


@contextmanager
def quiet() -> Iterator[None]:
    """Keep what they log from standard error, where it would stand with its tracebacks."""
    nowhere = logging.NullHandler()
    for name in _TALKERS:
        logging.getLogger(name).addHandler(nowhere)
    try:
        yield
    finally:
        for name in _TALKERS:
            logging.getLogger(name).removeHandler(nowhere)
