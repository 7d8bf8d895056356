"""Where a text stops being TOML, in a musician's words.

`tomllib` stops at the first fault. Where a fault spoils no more than its own row, that row is left
out and the rest is read again, so that three missing quotation marks are told at once.
"""

import re
import tomllib
from collections.abc import Callable, Iterator
from typing import NamedTuple

from thruline.base.spot import Spot
from thruline.document.places import BOM, Lost, Places, TooDeep, places, row_starts
from thruline.document.problems import MOST_SHOWN, Problem, brief, excerpt
from thruline.document.write import value_text

_CHARACTERS_READ_AGAIN = 4_000_000
"""How much text is read in all to look for further faults: about a second's work."""

_SUFFIX = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_PHRASE = re.compile(r"[^,\]}#\r\n]*")
_KEY_BEFORE = re.compile(r"([A-Za-z0-9_.-]+)[ \t]*=[ \t]*$")
_NUMBERS = re.compile(r"[+-]?[1-9][0-9]*(?:[ \t]+[+-]?[1-9][0-9]*)+")
_CURLY = "“”„‟«»\u2018\u2019\u201a"
_NOTHING_FOLLOWS = "nothing may follow the value in its row but a # comment"


class _Fault(NamedTuple):
    """What is wrong from `start` to `end`; whether its row is all that is spoiled."""

    start: int
    end: int
    says: str
    example: str = ""
    one_row: bool = True


class _Scene(NamedTuple):
    """A text, the offset at which `tomllib` gave up, and what it said."""

    text: str
    offset: int
    said: str

    def row_start(self, offset: int) -> int:
        return self.text.rfind("\n", 0, offset) + 1

    def before(self) -> str:
        """The row up to the offset."""
        return self.text[self.row_start(self.offset) : self.offset]

    def phrase(self, start: int) -> str:
        """What stands from `start` to the next comma, bracket, comment or end of row."""
        found = _PHRASE.match(self.text, start)
        return found[0].rstrip() if found else ""

    def character(self) -> str:
        return self.text[self.offset : self.offset + 1]


def syntax_problems(
    text: str, error: tomllib.TOMLDecodeError, *, file: str
) -> tuple[list[Problem], int]:
    """The faults of a text that `tomllib` refused with this error, and how many more there are."""
    where = Places(text, {}, row_starts(text))
    faults = list(_faults(text, error))
    problems = [_problem(fault, where, file) for fault in faults[:MOST_SHOWN]]
    return problems, len(faults) - len(problems)


def _faults(text: str, error: tomllib.TOMLDecodeError) -> Iterator[_Fault]:
    attempts = _CHARACTERS_READ_AGAIN // (len(text) + 1)
    while True:
        scene = _scene(text, error)
        fault = _fault(scene)
        yield fault
        if not fault.one_row or attempts <= 0:
            return
        attempts -= 1
        begins = scene.row_start(fault.start)
        ends = text.find("\n", fault.start)
        ends = len(text) if ends < 0 else ends
        text = text[:begins] + " " * (ends - begins) + text[ends:]
        try:
            tomllib.loads(text.removeprefix(BOM))
        except tomllib.TOMLDecodeError as next_error:
            error = next_error
        except (RecursionError, ValueError):
            return
        else:
            return


def _problem(fault: _Fault, where: Places, file: str) -> Problem:
    spot: Spot = where.spot(file, fault.start, fault.end)
    return Problem(
        spot=spot,
        says=fault.says,
        found=brief(where.text[fault.start : fault.start + spot.length]),
        example=fault.example,
        excerpt=excerpt(where, spot),
    )


def _scene(text: str, error: tomllib.TOMLDecodeError) -> _Scene:
    """The error with its row and column as an offset into the text."""
    said = str(error)
    found = _SUFFIX.search(said)
    if found is None or found[1] is None:
        return _Scene(text, len(text), said.removesuffix(found[0] if found else ""))
    row, column = int(found[1]), int(found[2])
    offset = row_starts(text)[row - 1] + column - 1
    if row == 1 and text.startswith(BOM):
        offset += 1
    return _Scene(text, min(offset, len(text)), said[: found.start()])


def _fault(scene: _Scene) -> _Fault:
    for beginning, tell in _TELLERS:
        if scene.said.startswith(beginning):
            return tell(scene)
    says = f"this cannot be read ({scene.said[:1].lower()}{scene.said[1:]})"
    return _Fault(scene.offset, scene.offset + 1, says, one_row=False)


def _no_value(scene: _Scene) -> _Fault:
    start = scene.offset
    phrase = scene.phrase(start)
    end = start + len(phrase)
    if not phrase:
        return _Fault(start, start + 1, "there is no value here")
    if not phrase.isprintable():
        return _illegal(scene)
    if phrase[0] in _CURLY:
        says = "these quotation marks are curly; straight ones are needed"
        return _Fault(start, end, says, _example(scene, start, phrase.strip(_CURLY)))
    if phrase.lower() in ("true", "false"):
        return _Fault(start, end, f"{phrase} must be written {phrase.lower()}")
    if re.fullmatch(r"[+-]?\.[0-9]+", phrase):
        says = f"a number needs a digit before its point: {phrase.replace('.', '0.')}"
        return _Fault(start, end, says)
    return _quotes(scene, start, phrase)


def _too_much(scene: _Scene) -> _Fault:
    bare = _bare_value(scene)
    if bare is not None:
        return bare
    if scene.character() == "\r":
        says = "this row does not end as rows do; save the file with the usual line ends"
        return _Fault(scene.offset, scene.offset + 1, says, one_row=False)
    phrase = scene.phrase(scene.offset)
    return _Fault(scene.offset, scene.offset + max(1, len(phrase)), _NOTHING_FOLLOWS)


def _bare_value(scene: _Scene) -> _Fault | None:
    """A value that began like a number or a word of TOML and went on: `50%`, `350 ms`, `03`."""
    before = scene.before()
    start = max(map(before.rfind, "=,[{")) + 1
    begun = before[start:].lstrip()
    if not begun or any(quote in begun for quote in "\"'#]}"):
        return None
    start = scene.offset - len(before[start:].lstrip())
    phrase = scene.phrase(start)
    if scene.character() == "," and re.match(r",[0-9]", scene.text[scene.offset :][:2]):
        end = scene.offset + 1 + len(scene.phrase(scene.offset + 1))
        says = "a decimal number has a point, not a comma"
        return _Fault(start, end, says, scene.text[start:end].replace(",", ".", 1))
    if start + len(phrase) <= scene.offset or "=" in phrase or _NUMBERS.fullmatch(phrase):
        return None
    if re.fullmatch(r"[+-]?0[0-9]+", phrase):
        number = str(int(phrase))
        says = f'a number does not begin with 0: write {number}, or "{phrase}" if it is text'
        return _Fault(start, start + len(phrase), says)
    return _quotes(scene, start, phrase)


def _quotes(scene: _Scene, start: int, phrase: str) -> _Fault:
    says = f"{brief(phrase)} needs quotation marks"
    return _Fault(start, start + len(phrase), says, _example(scene, start, phrase))


def _example(scene: _Scene, start: int, phrase: str) -> str:
    key = _KEY_BEFORE.search(scene.text[scene.row_start(start) : start])
    value = value_text(brief(phrase))
    return f"{key[1]} = {value}" if key else value


def _no_equals(scene: _Scene) -> _Fault:
    start, character = scene.offset, scene.character()
    if character == ":":
        return _Fault(start, start + 1, "here belongs = instead of :")
    if character.isalpha() and not character.isascii():
        says = f"a key with {character} in it needs quotation marks"
        return _Fault(start, start + 1, says)
    before = scene.before().strip()
    says = f"after the key {before} an = and a value are missing" if before else "a key is missing"
    return _Fault(start, start + 1, says)


def _no_statement(scene: _Scene) -> _Fault:
    says = "a row begins with a key, with a [table] or with a # comment"
    return _Fault(scene.offset, scene.offset + 1, says)


def _no_key(scene: _Scene) -> _Fault:
    start, character = scene.offset, scene.character()
    if character == "}":
        return _Fault(start, start + 1, "there is a comma too many before this }")
    if character in ("\n", "#", "\r") and scene.before().rstrip().endswith((",", "{")):
        return _table_in_a_row(scene)
    if not character or character in "\r\n":
        return _Fault(start, start + 1, "a key is missing here", one_row=False)
    says = f"a key cannot begin with {character}; in quotation marks it can"
    return _Fault(start, start + 1, says, one_row=not scene.before().lstrip().startswith("["))


def _open_list(scene: _Scene) -> _Fault:
    return _bare_value(scene) or _open_bracket(scene, "list", "]")


def _open_table(scene: _Scene) -> _Fault:
    bare = _bare_value(scene)
    if bare is not None:
        return bare
    if scene.character() in ("\n", "#", "\r"):
        return _table_in_a_row(scene)
    return _open_bracket(scene, "table", "}")


def _table_in_a_row(scene: _Scene) -> _Fault:
    opened = _lost(scene)[1]
    begins = opened[-1] if opened else scene.row_start(scene.offset) + scene.before().rfind("{")
    says = "a table in { } must stand in one row, and this one is not closed in it"
    return _Fault(begins, begins + 1, says, one_row=False)


def _open_bracket(scene: _Scene, what: str, closing: str) -> _Fault:
    opened = _lost(scene)[1]
    if not scene.character() and opened:
        says = f"this {what} is never closed: a {closing} is missing"
        return _Fault(opened[-1], opened[-1] + 1, says, one_row=False)
    says = f"a comma or {closing} is missing before this"
    if opened and opened[-1] < scene.row_start(scene.offset):
        row = scene.text.count("\n", 0, opened[-1]) + 1
        says += f" in the {what} that begins in row {row}"
    return _Fault(scene.offset, scene.offset + 1, says, one_row=False)


def _open_header(scene: _Scene) -> _Fault:
    brackets = "]]" if "']]'" in scene.said else "]"
    says = f"the name of a table ends with {brackets}"
    return _Fault(scene.offset, scene.offset + 1, says, one_row=False)


def _twice(scene: _Scene) -> _Fault:
    try:
        twice = places(scene.text).twice
    except (Lost, TooDeep):
        twice = None
    if twice is None:
        says = "what stands here has a value already, so it cannot be a table as well"
        start = scene.row_start(scene.offset)
        return _Fault(start, scene.offset, says)
    trail, first, second = twice
    row = scene.text.count("\n", 0, first.key) + 1
    says = f'"{trail[-1]}" is given twice: first in row {row}'
    return _Fault(second.key, second.key_end, says, one_row=scene.text[second.key] != "[")


def _backslash(scene: _Scene) -> _Fault:
    start = max(scene.text.rfind("\\", 0, scene.offset + 1), 0)
    says = "a \\ in text is written twice: \\\\ (or the text stands between ' and ')"
    return _Fault(start, start + 1, says)


def _code(scene: _Scene) -> _Fault:
    says = "\\u stands before the four hexadecimal digits of a character, \\U before eight"
    return _Fault(scene.offset, scene.offset + 1, says)


def _illegal(scene: _Scene) -> _Fault:
    character = scene.character()
    if character in ("\n", ""):
        return _open_text(scene)
    says = f"a control character (code {ord(character)}) cannot stand here; delete it"
    if character == "\r":
        says = "rows end in a way of very old computers; save the file with ordinary row ends"
    return _Fault(scene.offset, scene.offset + 1, says)


def _open_text(scene: _Scene) -> _Fault:
    start = _lost(scene)[0]
    quote = scene.text[start : start + 3]
    if quote not in ('"""', "'''"):
        quote = quote[:1] if quote[:1] in "\"'" else '"'
    says = f"this text is never closed: {quote} is missing at its end"
    return _Fault(start, start + len(quote), says, one_row=scene.character() == "\n")


def _date(scene: _Scene) -> _Fault:
    phrase = scene.phrase(scene.offset)
    says = f"{brief(phrase)} is not a day of the calendar"
    return _Fault(scene.offset, scene.offset + len(phrase), says)


def _lost(scene: _Scene) -> tuple[int, tuple[int, ...]]:
    """Where the finder of places gets lost in the text, and the brackets still open there."""
    try:
        places(scene.text)
    except Lost as lost:
        return lost.offset, lost.opened
    except TooDeep:
        pass
    return min(scene.offset, max(0, len(scene.text) - 1)), ()


_TELLERS: tuple[tuple[str, Callable[[_Scene], _Fault]], ...] = (
    ("Invalid value", _no_value),
    ("Expected newline", _too_much),
    ("Expected '='", _no_equals),
    ("Invalid statement", _no_statement),
    ("Invalid initial character", _no_key),
    ("Unclosed array", _open_list),
    ("Unclosed inline table", _open_table),
    ("Expected ']", _open_header),
    ("Cannot ", _twice),
    ("Duplicate inline table key", _twice),
    ("Unescaped", _backslash),
    ("Invalid hex value", _code),
    ("Escaped character", _code),
    ("Illegal character", _illegal),
    ("Found invalid character", _illegal),
    ("Unterminated string", _open_text),
    ("Expected ", _open_text),
    ("Invalid date", _date),
)
"""How `tomllib` (Python 3.11 to 3.14) begins what it says, and who tells it in plain words."""
