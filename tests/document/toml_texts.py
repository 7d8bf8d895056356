"""TOML texts of every style, made by chance, together with what they mean.

The same data is laid out in many ways: inline tables, headers, dotted keys, arrays
over several rows, comments everywhere, both kinds of line end, all ways of quoting.
"""

import tomllib
from dataclasses import dataclass
from random import Random

from hypothesis import strategies as st

KEYS = st.sampled_from(
    ["a", "b", "id", "unit", "name", "midi-out", "x_x", "10", "wide key", "a.b", "größe", "", "#"]
)
TEXTS = st.text(
    st.characters(exclude_categories=["Cs"], exclude_characters="\r"), max_size=12
) | st.sampled_from(["#", "]", "}", "'", '"', "'''", '"""', "\\", "= 1", "[a]", "a,b", "\n# x\n"])
SCALARS = (
    TEXTS
    | st.integers(-(2**63), 2**63 - 1)
    | st.booleans()
    | st.floats(allow_nan=False)
    | st.dates()
    | st.times()
    | st.datetimes()
)


def values(depth=3):
    """Plain values, nested a little."""
    return st.recursive(
        SCALARS,
        lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4),
        max_leaves=8,
    )


TREES = st.dictionaries(
    KEYS,
    values() | st.lists(st.dictionaries(KEYS, values(), max_size=4), min_size=1, max_size=3),
    max_size=6,
)


@dataclass
class Style:
    """Chance as far as a layout needs it."""

    chance: Random
    comments: int = 0

    def pick(self, *choices):
        return self.chance.choice(choices)

    def comment(self):
        self.comments += 1
        return f"# note {self.comments} " + self.pick("", '"', "'", "]", "[x]", "a = 1", "ü")

    def blank(self):
        return self.pick("", " ", "\t", "  ")

    def row_end(self):
        return self.pick("", "", " ", " " + self.comment()) + "\n"

    def gap(self):
        return "".join(
            self.pick("\n", "  \n", self.blank() + self.comment() + "\n")
            for _ in range(self.pick(0, 0, 0, 1, 2))
        )


def basic(text):
    escapes = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\b": "\\b", "\f": "\\f"}
    return "".join(
        escapes.get(c) or (f"\\u{ord(c):04X}" if ord(c) < 32 or ord(c) == 127 else c) for c in text
    )


def text_of(style, text):
    ways = ["basic", "long", "basic"]
    plain = all(c >= " " and c != "\x7f" for c in text)
    if plain and "'" not in text:
        ways += ["literal", "long literal"]
    match style.pick(*ways):
        case "basic":
            return f'"{basic(text)}"'
        case "literal":
            return f"'{text}'"
        case "long":
            body = basic(text).replace("\\n", style.pick("\n", "\\n"))
            return f'"""\n{body}"""'
        case _:
            return f"'''\n{text}'''"


def key_of(style, key):
    if key.isascii() and key.replace("-", "").replace("_", "").isalnum():
        return style.pick(key, key, f'"{key}"', f"'{key}'")
    return f'"{basic(key)}"'


def value_of(style, value):
    if isinstance(value, str):
        return text_of(style, value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return list_of(style, value)
    if isinstance(value, dict):
        return inline_of(style, value)
    if isinstance(value, int) and 0 <= value < 2**40:
        return style.pick(str(value), hex(value), f"+{value}", bin(value))
    return value.isoformat() if hasattr(value, "isoformat") else repr(value)


def list_of(style, items):
    wide = style.pick(False, True)
    space = (lambda: style.gap() + style.blank()) if wide else style.blank
    inner = [space() + value_of(style, item) + space() for item in items]
    comma = "," if items and style.pick(False, True) else ""
    return f"[{','.join(inner)}{comma}{space()}]"


def inline_of(style, table):
    pairs = []
    for names, value in dotted(style, table):
        key = f"{style.blank()}.{style.blank()}".join(key_of(style, name) for name in names)
        pairs.append(f"{style.blank()}{key}{style.blank()}={style.blank()}{value_of(style, value)}")
    return f"{{{', '.join(pairs)}{style.blank()}}}"


def dotted(style, table):
    """The pairs of a table, some of its tables spread out as dotted keys."""
    for key, value in table.items():
        if isinstance(value, dict) and value and style.pick(False, True):
            for names, inner in dotted(style, value):
                yield (key, *names), inner
        else:
            yield (key,), value


def block_of(style, names, table):
    """Rows of a table, then the blocks of what has headers of its own."""
    apart = [key for key, value in table.items() if can_stand_apart(value) and style.pick(0, 1)]
    rows = []
    for inner_names, value in dotted(style, {k: v for k, v in table.items() if k not in apart}):
        key = f"{style.blank()}.".join(key_of(style, name) for name in inner_names)
        rows.append(
            f"{style.gap()}{style.blank()}{key}{style.blank()}= {value_of(style, value)}"
            f"{style.row_end()}"
        )
    for key in apart:
        for one in table[key] if isinstance(table[key], list) else [table[key]]:
            many = isinstance(table[key], list)
            rows += header_of(style, (*names, key), one, many=many)
    return "".join(rows)


def header_of(style, names, table, *, many):
    below = block_of(style, names, table)
    only_blocks = bool(table) and below.lstrip().startswith("[") and not style.comments
    if only_blocks and not many and style.pick(False, True):
        return [below]  # its name stands in the longer headers
    name = f"{style.blank()}.".join(key_of(style, part) for part in names)
    brackets = ("[[", "]]") if many else ("[", "]")
    head = f"{brackets[0]}{style.blank()}{name}{style.blank()}{brackets[1]}"
    return [f"{style.gap()}{style.blank()}{head}{style.row_end()}", below]


def can_stand_apart(value):
    if isinstance(value, list):
        return bool(value) and all(isinstance(item, dict) for item in value)
    return isinstance(value, dict)


@st.composite
def documents(draw):
    """A text and the data that it holds."""
    style = Style(Random(draw(st.integers(0, 2**32))))
    text = block_of(style, (), draw(TREES)) + style.gap()
    if style.pick(False, False, True):
        text = text.removesuffix("\n")
    if style.pick(False, True):
        text = text.replace("\n", "\r\n")
    return text, tomllib.loads(text)
