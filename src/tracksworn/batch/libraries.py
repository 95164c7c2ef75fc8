"""The libraries below the program and their versions: Python's packages, and those of the system that set and draw.

None of them is imported for it, which would take longer than a run in which nothing has changed.
"""

import ctypes
import sys
from collections.abc import Callable, Iterator
from email.message import Message
from email.parser import HeaderParser
from importlib.metadata import PackageNotFoundError, distribution
from typing import Final

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

NONE: Final = "none"
"""In the place of a version: it is not installed here."""


def packages(root: str = "tracksworn") -> Iterator[str]:
    """What a package needs, and what that needs in turn, as `name version`, in order; what is optional is left out."""
    versions: dict[str, str] = {}
    coming, seen = [(root, "")], set()
    while coming:
        if (one := coming.pop()) in seen:
            continue
        seen.add(one)
        name, extra = one
        described = _described(name)
        versions[name] = described["Version"] if described else NONE
        coming.extend(_wanted(described, extra) if described else ())
    del versions[root]
    yield from (f"{name} {version}" for name, version in sorted(versions.items()))


def _described(name: str) -> Message | None:
    """What a package says of itself, without the long text that follows it."""
    try:
        found = distribution(name)
    except PackageNotFoundError:
        return None
    return HeaderParser().parsestr((found.read_text("METADATA") or found.read_text("PKG-INFO") or "").split("\n\n")[0])


def _wanted(described: Message, extra: str) -> Iterator[tuple[str, str]]:
    """What a package needs here for one of its extras; for none of them, by an empty name."""
    for requirement in map(Requirement, described.get_all("Requires-Dist", ())):
        if requirement.marker is None or requirement.marker.evaluate({"extra": extra}):
            yield from ((canonicalize_name(requirement.name), one) for one in ("", *requirement.extras))


def system_libraries() -> tuple[tuple[str, str], ...]:
    """Those that break lines, choose and draw letters, each with its version, as the page engine finds them."""
    found = _DARWIN if sys.platform == "darwin" else _ELSEWHERE
    return tuple((name, _version(file, _ASKED[name])) for name, file in found.items())


def _version(file: str, ask: Callable[[ctypes.CDLL], str]) -> str:
    try:
        return ask(ctypes.CDLL(file))
    except (OSError, AttributeError):  # not there, or too old to be asked
        return NONE


def _by_text(function: str) -> Callable[[ctypes.CDLL], str]:
    def ask(library: ctypes.CDLL) -> str:
        call = library[function]
        call.argtypes, call.restype = (), ctypes.c_char_p
        return str(call().decode())

    return ask


def _fontconfig(library: ctypes.CDLL) -> str:
    number = int(library.FcGetVersion())
    return f"{number // 10000}.{number // 100 % 100}.{number % 100}"


def _freetype(library: ctypes.CDLL) -> str:
    begun, numbers = ctypes.c_void_p(), [ctypes.c_int() for _ in range(3)]
    if library.FT_Init_FreeType(ctypes.byref(begun)):
        return NONE
    library.FT_Library_Version(begun, *map(ctypes.byref, numbers))
    library.FT_Done_FreeType(begun)
    return ".".join(str(number.value) for number in numbers)


def _fribidi(library: ctypes.CDLL) -> str:
    said = ctypes.c_char_p.in_dll(library, "fribidi_version_info").value or b""
    return said.split(b"\n")[0].decode().rpartition(" ")[2]


_ASKED: Final = {
    "Pango": _by_text("pango_version_string"),
    "HarfBuzz": _by_text("hb_version_string"),
    "Fontconfig": _fontconfig,
    "FreeType": _freetype,
    "FriBidi": _fribidi,
}
_ELSEWHERE: Final = {
    "Pango": "libpango-1.0.so.0",
    "HarfBuzz": "libharfbuzz.so.0",
    "Fontconfig": "libfontconfig.so.1",
    "FreeType": "libfreetype.so.6",
    "FriBidi": "libfribidi.so.0",
}
_DARWIN: Final = {
    "Pango": "libpango-1.0.dylib",
    "HarfBuzz": "libharfbuzz.0.dylib",
    "Fontconfig": "libfontconfig.1.dylib",
    "FreeType": "libfreetype.6.dylib",
    "FriBidi": "libfribidi.0.dylib",
}
