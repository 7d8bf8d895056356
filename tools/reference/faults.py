"""What a search suspects: every kind of fault with its odds and its mend, by what it is about."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from thruline.find.kind_rows import ROWS
from thruline.find.kinds import Kind

HEAD = """\
# Every kind of fault

`thruline find` makes its suspects from the rig itself: for each lead, socket, menu item, entry,
supply, pedal and loop of it those of the {count} kinds of fault below that it can have. What would
be seen is predicted for each by the same code that proves the rig, with the fault put in; a fault
that only a look at the thing itself shows is asked for by that look.

**Odds** are those before anyone has looked, for one thing that can fail so, relative to a lead with
an open wire (1). A chart moves those of its model with `[[odds]]`, a rig those of one unit with
`[[unit.odds]]`; what the workshop's searches found moves them all. *Comes and goes* is what shows
only now and then.

Two things are wrong at once in every belief as well, and so is "nothing is wrong" and "something
that is not among the suspects".
"""

TAIL = """\
## What a search does not tell apart

- Faults of one thing with one mend, such as a wire that is open and a shield that is: the lead is
  replaced in either case.
- Too many electrical copies in a row, two outputs joined without a merge, one output split without
  a thru box, lines that lead round in a circle, and messages that come twice are in the document,
  and `thruline prove` finds them there; a search has them only as a socket, lead or menu item that
  is otherwise than planned.
- What never shows at a press, in a menu, on a lamp or at the computer's interface. Then a search
  says that nothing known explains what was seen, and `--report` writes the page for a colleague.
"""

ABOUT: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "Leads": ("cable-",),
        "Sockets and what they are set to": ("input-dead", "output-", "low-voltage-out"),
        "Channels": ("channel-", "omni-"),
        "Programs and controls in a unit": (
            "programs-off", "controls-off", "numbers-", "bank-byte-", "control-renumbered",
            "number-shared", "not-stored", "other-firmware", "back-to-factory",
        ),
        "How a unit hears and loads": (
            "loads-slowly", "frozen", "unit-dead", "input-overflows", "running-status-missed",
            "joined-late", "sends-at-power-up",
        ),
        "Clock, notes, sensing and dumps": (
            "clock-", "two-clocks", "sensing-", "note-", "local-", "stuck-", "dumps-",
        ),
        "What the controller sends": (
            "entry-", "bank-not-", "bank-after-", "bank-halves-", "controls-not-",
            "controls-before-", "control-other-", "switch-", "fine-", "parameter-", "toggle-",
            "panic-", "pauses-", "memory-", "page-",
        ),
        "Power and noise": ("no-power", "power-", "shared-", "ground-", "usb-"),
        "Expression pedals": ("pedal-",),
        "Relay loops": ("loop-",),
        "The tool itself": ("tool-",),
    }
)  # fmt: skip
"""What kinds are about, by how their names begin."""
_THINGS = {"Leads": "the lead", "Expression pedals": "the pedal", "Relay loops": "the loop"}
_OWN_THINGS = {
    Kind.INPUT_DEAD: "MIDI IN of the unit",
    Kind.OUTPUT_DEAD: "MIDI OUT of the unit",
    Kind.MEMORY_NOT_WRITTEN: "the controller",
    Kind.PAGE_WRONG: "the controller",
    Kind.PAUSES_NOT_ENTERED: "the controller",
    Kind.TOOL_FAULT: "the computer",
}


def pages() -> Iterator[tuple[str, str]]:
    """One page: a table for each thing that faults are about."""
    tables = (table(about, starts) for about, starts in ABOUT.items())
    yield "faults.md", "\n".join([HEAD.format(count=len(Kind)), *tables, TAIL])


def kinds_about(starts: tuple[str, ...]) -> list[Kind]:
    """The kinds whose names begin so, in the order of the list of kinds."""
    return [kind for kind in Kind if kind.value.startswith(starts)]


def table(about: str, starts: tuple[str, ...]) -> str:
    """The kinds about one thing: what is wrong, what is done about it, the odds."""
    rows = [f"## {about}", "", "| kind | what is wrong | mend | odds |", "|---|---|---|---|"]
    for kind in kinds_about(starts):
        row, thing = ROWS[kind], _OWN_THINGS.get(kind) or _THINGS.get(about, "the unit")
        says, mend = row.says.format(what=thing), row.mend.format(what=thing)
        goes = " *(comes and goes)*" if row.sometimes else ""
        rows.append(f"| `{kind}` | {says}{goes} | {mend} | {row.odds:g} |")
    return "\n".join([*rows, ""])
