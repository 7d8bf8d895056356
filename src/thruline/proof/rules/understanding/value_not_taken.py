"""A stored value outside what the control takes."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.example_charts import a_listener
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.proof.understood import Met, message_words, met, program_again, sent_rows
from thruline.rig.preset import Preset
from thruline.timing.fate import Fate

_REFUSED = (Fate.OUT_OF_RANGE, Fate.DEAD_ZONE)


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    groups: dict[tuple[str, str], list[Met]] = {}
    for one in met(case, preset):
        if one.fate in _REFUSED:
            part = one.item.part or f"control-{one.item.data[1]}"
            groups.setdefault((one.unit.id, part), []).append(one)
    for (_, part), ones in groups.items():
        first = ones[0]
        yield RULE.finding(
            f"preset {preset.title} sends {first.unit.name} {message_words(first.item.data)}, a "
            "value that the control does not take",
            preset.address.child("messages"),
            first.unit.address.child(part),
            evidence=[sent_rows(ones)],
            mends=program_again(preset),
        )


def _stored(value: int) -> Example:
    rows = ('id = "depth"', 'name = "Depth"', "high = 100")
    return board(
        a_unit("phaser", "phaser", "channel = 2"),
        a_cable("feet.midi-out-1", "phaser.midi-in"),
        a_preset(1, "Overture", f'messages = ["2: control 20 = {value}"]'),
        charts=(a_listener("phaser", *rows, about="An invented unit whose depth ends at 100."),),
    )


RULE = Rule(
    id=rule_id(__name__),
    title="A stored value that the control does not take",
    severity=Severity.FAULT,
    why=(
        "The control uses only part of the values from 0 to 127, and what is stored lies outside. "
        "The unit ignores it, or takes the nearest end, as its maker liked."
    ),
    failing=_stored(120),
    passing=_stored(40),
    look_memory=_look,
)
