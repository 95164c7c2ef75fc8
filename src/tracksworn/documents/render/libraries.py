"""How WeasyPrint finds the shared libraries that it is built on."""

import ctypes.util
import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def by_their_own_names() -> Iterator[None]:
    """While it is imported, a library is only asked for by the name of its file, which the system's loader knows.

    WeasyPrint tries the names of all systems one after the other. On Linux those before the right one are never there,
    and for each of these dozen Python starts the compiler, the linker and ldconfig, for a tenth of a short command.
    """
    search = ctypes.util.find_library
    if sys.platform == "linux":
        ctypes.util.find_library = lambda name: None  # noqa: ARG005
    try:
        yield
    finally:
        ctypes.util.find_library = search
