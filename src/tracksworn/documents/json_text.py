"""Plain values as JSON text, byte for byte as the libraries write it, of which every document waits for a good deal.

`json` indents by generators within generators and `rfc8785` writes every piece by itself; here finished texts are put
together. What is out of the ordinary is left to these two.
"""

import json
from collections.abc import Callable, Mapping
from json.encoder import encode_basestring
from typing import Any, Final

import rfc8785

Single = Mapping[type, Callable[[Any], str]]
"""How a value that holds no others is written, by its type."""


def indented(value: Any, step: int) -> str:
    """As `json.dumps` with `indent=step`, characters as they are. Raises ValueError for a figure that is not finite."""
    return _indented(value, " " * step, "\n")


def canonical(value: Any) -> str:
    """As RFC 8785 has it, before its UTF-8. Raises ValueError for what has no form there."""
    kind = type(value)
    if kind in _CANONICAL:
        return _CANONICAL[kind](value)
    if kind is list:
        return f"[{','.join(map(canonical, value))}]"
    if kind is dict and _in_order_by_ascii(value):
        parts = [f"{encode_basestring(key)}:{canonical(value[key])}" for key in sorted(value)]
        return f"{{{','.join(parts)}}}"
    return _by_rfc8785(value)


def _indented(value: Any, step: str, margin: str) -> str:
    """`margin` is the new line at which the value itself begins."""
    kind = type(value)
    if kind in _SINGLE:
        return _SINGLE[kind](value)
    inside = margin + step
    if isinstance(value, list | tuple) and value:
        parts = [_indented(one, step, inside) for one in value]
        return f"[{inside}{f',{inside}'.join(parts)}{margin}]"
    if isinstance(value, dict) and value:
        parts = [f"{encode_basestring(key)}: {_indented(one, step, inside)}" for key, one in value.items()]
        return f"{{{inside}{f',{inside}'.join(parts)}{margin}}}"
    return _by_json(value)


def _in_order_by_ascii(value: Mapping[str, Any]) -> bool:
    """Whether Python sorts the keys as RFC 8785, 3.2.3, asks, by their UTF-16: beyond ASCII it may not."""
    return "".join(value).isascii()


def _figure(value: float) -> str:
    text = repr(value)
    return _by_json(value) if "n" in text else text


def _canonical_figure(value: float) -> str:
    """Python's digits are those of RFC 8785, 3.2.2.3; it only writes what is whole, or has an exponent, otherwise."""
    text = repr(value)
    return _by_rfc8785(value) if "e" in text or "n" in text or value == 0.0 else text.removesuffix(".0")


def _canonical_number(value: int) -> str:
    return repr(value) if abs(value) < _WHOLE_IN_A_DOUBLE else _by_rfc8785(value)


def _by_json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _by_rfc8785(value: Any) -> str:
    return rfc8785.dumps(value).decode("utf-8")


_literal: Final = {None: "null", True: "true", False: "false"}.__getitem__
_WHOLE_IN_A_DOUBLE: Final = 2**53
_SINGLE: Final[Single] = {str: encode_basestring, float: _figure, int: repr, bool: _literal, type(None): _literal}
_CANONICAL: Final[Single] = {**_SINGLE, float: _canonical_figure, int: _canonical_number}
