"""Bytes to text to plain data, or in plain words why that cannot be."""

import re
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from itertools import repeat
from typing import Any

from thruline.base.spot import Spot
from thruline.document.places import BOM, MAX_DEPTH, Lost, Places, TooDeep, places, row_starts
from thruline.document.plain import at_trail
from thruline.document.problems import MOST_SHOWN, BadDocument, Problem, excerpt
from thruline.document.syntax import syntax_problems
from thruline.document.unseen import hides_some, unseen
from thruline.document.write import WHOLE_NUMBERS

MAX_BYTES = 16 * 1024 * 1024
"""The largest document that is read. A rig of 10,000 presets has about 6 MB."""

_LONG_NUMBER = re.compile(r"(?<![0-9_])[0-9][0-9_]{4000,}")
_SAVE_AS = "save the file as UTF-8 (in the editor's “Save as”, under “Encoding”)"
_OTHER_ENCODINGS = (
    (b"\xff\xfe\x00\x00", "UTF-32"),
    (b"\x00\x00\xfe\xff", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
)


class OutsizeNumber(ValueError):
    """A number stands in a document that other readers of TOML cannot hold."""


def read(source: str | bytes, *, file: str) -> tuple[str, dict[str, Any]]:
    """The text of a document, and its plain data as `tomllib` reads it.

    Raises BadDocument when it is no text, no TOML, too large or too deeply nested.
    """
    text = text_of(source, file)
    try:
        data = plain_data(text)
    except OutsizeNumber:
        raise _outsize_numbers(text, tomllib.loads(text.removeprefix(BOM)), file) from None
    except (TooDeep, RecursionError):
        raise _too_deep(text, file) from None
    except tomllib.TOMLDecodeError as error:
        problems, more = syntax_problems(text, error, file=file)
        raise BadDocument(problems, more=more) from None
    except ValueError:  # int() refuses thousands of digits
        raise _too_long_number(text, file) from None
    return text, data


def plain_data(text: str) -> dict[str, Any]:
    """What a text holds.

    Raises ValueError when it is no TOML (then a TOMLDecodeError) or has numbers that other readers
    of TOML cannot hold, TooDeep or RecursionError when it is too deeply nested.
    """
    _refuse_long_keys(text)
    data = tomllib.loads(text.removeprefix(BOM))
    _refuse_outsize(data)
    return data


def text_of(source: str | bytes, file: str) -> str:
    """A document as text. Raises BadDocument when it is none, or too large."""
    if len(source) > MAX_BYTES:
        says = f"this has {len(source):,} bytes; a document may have {MAX_BYTES:,} at most"
        raise BadDocument([Problem(spot=Spot(file, 1, 1), says=says)])
    if isinstance(source, bytes):
        return _decoded(source, file)
    try:
        source.encode()
    except UnicodeEncodeError as error:
        says = "half a character stands here; type it again"
        raise _one_problem(source, file, (error.start, error.end), says) from None
    return source


def _decoded(source: bytes, file: str) -> str:
    for mark, name in _OTHER_ENCODINGS:
        if source.startswith(mark):
            raise BadDocument([Problem(spot=Spot(file, 1, 1), says=f"this is {name}; {_SAVE_AS}")])
    if source.count(0) * 3 > len(source):
        says = f"this looks like UTF-16; {_SAVE_AS}"
        raise BadDocument([Problem(spot=Spot(file, 1, 1), says=says)])
    try:
        return source.decode()
    except UnicodeDecodeError as error:
        start = len(source[: error.start].decode())
        says = f"the byte 0x{source[error.start]:02X} here is no UTF-8; {_SAVE_AS}"
        text = source.decode(errors="replace")
        raise _one_problem(text, file, (start, start + 1), says) from None


def _refuse_long_keys(text: str) -> None:
    """Keys of very many parts would cost `tomllib` time in the square of their number."""
    if max(map(str.count, text.split("\n"), repeat("."))) >= MAX_DEPTH:
        with suppress(Lost):
            places(text)


def _refuse_outsize(data: dict[str, Any]) -> None:
    """Refuse data that is nested too deeply, or a number that other readers of TOML cannot hold.

    Raises TooDeep or OutsizeNumber.
    """
    level: list[Any] = [data]
    is_outsize = False
    for _ in range(MAX_DEPTH):
        values: list[Any] = []
        for held in level:
            values.extend(held.values() if type(held) is dict else held)
        is_outsize = is_outsize or any(map(_is_outsize, values))
        level = [value for value in values if type(value) in (dict, list)]
        if not level:
            break
    else:
        raise TooDeep(0)
    if is_outsize:
        raise OutsizeNumber


def _is_outsize(value: object) -> bool:
    return type(value) is int and value not in WHOLE_NUMBERS


def _outsize_numbers(text: str, data: dict[str, Any], file: str) -> BadDocument:
    found = places(text).of.items()
    spans = [(at.start, at.end) for trail, at in found if _is_outsize(at_trail(data, trail))]
    return _one_problem(
        text, file, min(spans), "this number is larger than any that is needed here"
    )


def refuse_unseen(text: str, data: Mapping[str, Any], *, file: str) -> None:
    """Raise BadDocument for what a document holds and nobody sees, in the order of its text."""
    if not hides_some(text, data):
        return
    where = places(text)
    found = []
    for one in unseen(data):
        place = where.of[one.trail]
        span = (place.key, place.key_end) if one.of_key else (place.start, place.end)
        spot = where.spot(file, *span)
        found.append(Problem(spot=spot, says=one.says, excerpt=excerpt(where, spot)))
    found.sort(key=lambda problem: problem.spot)
    raise BadDocument(found[:MOST_SHOWN], more=max(0, len(found) - MOST_SHOWN))


def _too_long_number(text: str, file: str) -> BadDocument:
    found = _LONG_NUMBER.search(text)
    span = found.span() if found else (0, 0)
    return _one_problem(text, file, span, "this number is longer than any that is needed here")


def _too_deep(text: str, file: str) -> BadDocument:
    says = f"tables and lists stand in one another more than {MAX_DEPTH} deep here"
    try:
        places(text)
    except TooDeep as deep:
        return _one_problem(text, file, (deep.offset, deep.offset + 1), says)
    except Lost as lost:  # deep enough to stop the reader, and no TOML either
        return _one_problem(text, file, (lost.offset, lost.offset + 1), says)
    return _one_problem(text, file, (0, 0), says)


def _one_problem(text: str, file: str, span: tuple[int, int], says: str) -> BadDocument:
    where = Places(text, {}, row_starts(text))
    spot = where.spot(file, min(span[0], len(text)), span[1])
    part = excerpt(where, spot)
    return BadDocument([Problem(spot=spot, says=says, excerpt=part)])
