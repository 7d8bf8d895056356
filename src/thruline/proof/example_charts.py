"""Charts of invented units, for rules whose examples need one that the samples do not have."""

_HEAD = """
format = 1

[chart]
id = "{chart_id}"
maker = "Example"
model = "{model}"
kind = "{kind}"
about = "{about}"

[[socket]]
id = "midi-in"
kind = "midi-in"
connector = "din5"
isolated = true
"""
_PASSES_ON = """
[[socket]]
id = "midi-out"
kind = "midi-out"
connector = "din5"

[[output]]
socket = "midi-out"
ways = ["thru-soft"]
"""
_OBEYS_AT_ONCE = """
[channel]
factory = 1

[settle]
ms = 0
controls = "obeyed"

[receive]
control = true

[[control]]
number = 20
stored = false
"""


def a_box(chart_id: str, *rows: str, kind: str, about: str) -> str:
    """A box that passes messages on by software; `rows` are further rows of its output."""
    return _chart(chart_id, _PASSES_ON, *rows, kind=kind, about=about)


def a_listener(chart_id: str, *rows: str, about: str) -> str:
    """A unit that obeys control 20 at once; `rows` are further rows of that control."""
    return _chart(chart_id, _OBEYS_AT_ONCE, *rows, kind="modulation", about=about)


def _chart(chart_id: str, tables: str, *rows: str, kind: str, about: str) -> str:
    head = _HEAD.format(chart_id=chart_id, model=chart_id.title(), kind=kind, about=about)
    return "\n".join((head + tables.rstrip(), *rows, ""))
