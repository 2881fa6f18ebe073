"""Canonical JSON after RFC 8785, and the digest of a card.

Written for the tests only: a second implementation beside the one the product uses, so that a
mistake in either shows. RFC 8785 takes its number format from ECMAScript (Number::toString) and
sorts members by UTF-16 code units.
"""

from __future__ import annotations

import hashlib
import json
from decimal import Decimal
from typing import Any

#: Beyond this a whole number is not exact in a double (RFC 8785 appendix D, RFC 7493 section 2.2).
MOST_EXACT = 2**53 - 1

_SHORT_ESCAPES = {
    0x08: "\\b",
    0x09: "\\t",
    0x0A: "\\n",
    0x0C: "\\f",
    0x0D: "\\r",
    0x22: '\\"',
    0x5C: "\\\\",
}


def number(value: int | float) -> str:
    """A number as RFC 8785 section 3.2.2.3 writes it.

    Python's ``repr`` gives the shortest digits that read back as the same double; only the
    layout of those digits is ECMAScript's own.
    """
    if isinstance(value, int) and abs(value) > MOST_EXACT:
        raise ValueError(f"{value} is not exact in a double")
    double = float(value)
    if double != double or double in (float("inf"), float("-inf")):
        raise ValueError("not a number or infinite: JSON has no such number")
    if double == 0:
        return "0"
    sign, digit_tuple, exponent = Decimal(repr(double)).normalize().as_tuple()
    assert isinstance(exponent, int)
    digits = "".join(map(str, digit_tuple))
    # The value is 0.DIGITS × 10^point (the n of Number::toString).
    point = len(digits) + exponent
    if len(digits) <= point <= 21:
        text = digits + "0" * (point - len(digits))
    elif 0 < point <= 21:
        text = f"{digits[:point]}.{digits[point:]}"
    elif -6 < point <= 0:
        text = "0." + "0" * -point + digits
    else:
        mantissa = digits if len(digits) == 1 else f"{digits[0]}.{digits[1:]}"
        text = f"{mantissa}e{point - 1:+d}"
    return ("-" if sign else "") + text


def string(value: str) -> str:
    """A string as RFC 8785 section 3.2.2.2 writes it; a lone surrogate is an error."""
    value.encode("utf-8")
    pieces = []
    for character in value:
        code = ord(character)
        if code in _SHORT_ESCAPES:
            pieces.append(_SHORT_ESCAPES[code])
        elif code < 0x20:
            pieces.append(f"\\u{code:04x}")
        else:
            pieces.append(character)
    return '"' + "".join(pieces) + '"'


def canonical(value: Any) -> str:
    """The canonical text of a JSON value (RFC 8785)."""
    match value:
        case None:
            return "null"
        case True:
            return "true"
        case False:
            return "false"
        case int() | float():
            return number(value)
        case str():
            return string(value)
        case list() | tuple():
            return "[" + ",".join(map(canonical, value)) + "]"
        case dict():
            members = sorted(value.items(), key=lambda member: member[0].encode("utf-16-be"))
            return "{" + ",".join(f"{string(k)}:{canonical(v)}" for k, v in members) + "}"
    raise TypeError(f"no JSON value: {type(value).__name__}")


def digest(document: dict[str, Any]) -> str:
    """SHA-256 over the canonical form of a card without its ``digest``."""
    bare = {key: value for key, value in document.items() if key != "digest"}
    return "sha256:" + hashlib.sha256(canonical(bare).encode("utf-8")).hexdigest()


def card_bytes(document: dict[str, Any]) -> bytes:
    """The bytes of a card file: canonical, with its digest put in."""
    return canonical({**document, "digest": digest(document)}).encode("utf-8")


def load(text: str | bytes) -> Any:
    """Reads JSON, refusing what RFC 8785 refuses: a member named twice, NaN, infinity.

    A whole number too large to be exact is read as the double that it stands for.
    """

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        members = dict(pairs)
        if len(members) != len(pairs):
            raise ValueError("a member stands twice in one object")
        return members

    def no_constant(name: str) -> None:
        raise ValueError(f"{name} is no JSON number")

    def whole(digits: str) -> int | float:
        exact = int(digits)
        return exact if abs(exact) <= MOST_EXACT else float(digits)

    return json.loads(text, object_pairs_hook=once, parse_constant=no_constant, parse_int=whole)
