"""A stored message on a channel that no unit of the board has."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import sent
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import counted, message_words, program_again
from thruline.rig.preset import Preset


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    taken = {unit.sent_on for unit in case.rig.units.values() if unit.chart.listens}
    taken |= {channel for unit in case.rig.units.values() for channel in unit.channels}
    lost: dict[int, list[bytes]] = {}
    for item in case.run(preset).sending.items:
        channel = (item.data[0] & 0x0F) + 1
        if item.data[0] < 0xF0 and channel not in taken:
            lost.setdefault(channel, []).append(item.data)
    for channel, messages in lost.items():
        yield RULE.finding(
            f"preset {preset.title} sends {counted(len(messages), 'message')} on channel "
            f"{channel}, which no unit has",
            preset.address.child("messages"),
            preset.address.child(f"channel-{channel}"),
            evidence=[sent(*((message_words(data), "nobody listens") for data in messages))],
            mends=program_again(preset),
        )


RULE = Rule(
    id=rule_id(__name__),
    title="Messages for nobody",
    severity=Severity.RISK,
    why=(
        "The controller still sends to a unit that is no longer on the board, or somebody counted "
        "channels from 0. It costs time on the line, and one day a unit may be set to that channel."
    ),
    failing=stored(*BANK, "3: program 6", "9: program 2"),
    passing=stored(*BANK, "3: program 6"),
    look_memory=_look,
)
