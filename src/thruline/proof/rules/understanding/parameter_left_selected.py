"""A stored parameter that stays selected after its value was sent."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import sent
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.proof.understood import message_words, program_again
from thruline.rig.preset import Preset
from thruline.timing.receive import NRPN_LSB, NRPN_MSB, NULL, RPN_LSB, RPN_MSB
from thruline.timing.sending import Item

_SELECTORS = (NRPN_LSB, NRPN_MSB, RPN_LSB, RPN_MSB)


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    selects: dict[int, list[Item]] = {}
    for item in case.run(preset).sending.items:
        if item.data[0] & 0xF0 == 0xB0 and item.data[1] in _SELECTORS:
            selects.setdefault(item.data[0], []).append(item)
    for status, items in selects.items():
        if [item.data[2] for item in items[-2:]] != [NULL, NULL]:
            unit = case.rig.units.get(items[-1].unit or "")
            name = unit.name if unit else f"channel {(status & 0x0F) + 1}"
            yield RULE.finding(
                f"preset {preset.title} leaves a parameter of {name} selected: later data entry "
                "would "
                "change it by chance",
                preset.address.child("messages"),
                preset.address.child(f"channel-{(status & 0x0F) + 1}"),
                evidence=[sent(*((message_words(item.data), "selects") for item in items))],
                mends=program_again(preset),
            )


def _stored(*more: str) -> Example:
    glide = ("5: control 99 = 8", "5: control 98 = 6", "5: control 6 = 20", *more)
    quoted = ", ".join(f'"{message}"' for message in glide)
    return board(
        a_unit("bass", "worcester-bass", "channel = 5", 'settings = { omni = "OFF" }'),
        a_cable("feet.midi-out-1", "bass.midi-in"),
        a_preset(1, "Overture", f"messages = [{quoted}]", "bass = { glide = 20 }"),
    )


RULE = Rule(
    id=rule_id(__name__),
    title="A parameter left selected",
    severity=Severity.RISK,
    why=(
        "A parameter is first selected and then given its value. It stays selected until another "
        "is, and any data entry that comes by later changes it. Sending the null selection "
        "afterwards closes that door."
    ),
    failing=_stored(),
    passing=_stored("5: control 101 = 127", "5: control 100 = 127"),
    look_memory=_look,
)
