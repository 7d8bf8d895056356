"""A preset's name that the controller's display cannot show."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_preset, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.preset import Preset


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    controller = case.rig.controller
    abilities = controller.chart.abilities if controller else None
    if controller is None or abilities is None or abilities.name_length is None:
        return
    room = abilities.name_length
    if len(preset.name) > room:
        shown, short = preset.name[:room].rstrip(), _shortened(preset.name, room)
        yield RULE.finding(
            f"the name of preset {preset.title} has {len(preset.name)} characters; "
            f"{controller.name} shows {room}",
            preset.address.child("name"),
            evidence=[facts(("written", preset.name), ("shown", shown))],
            mends=[
                Mend(f'Shorten it to "{short}"', (set_to(preset.address.child("name"), short),))
            ],
        )


def _shortened(name: str, room: int) -> str:
    """As many whole words as there is room for, or else as many characters."""
    words = name[: room + 1].rpartition(" ")[0].rstrip()
    return words or name[:room].rstrip()


RULE = Rule(
    id=rule_id(__name__),
    title="A name too long for the display",
    severity=Severity.RISK,
    why=(
        "The controller cuts the name off, or does not take it. In the dark the player reads what "
        "is left of it, and two cut names may look the same."
    ),
    failing=board(a_preset(1, "The long farewell at the orchard gate")),
    passing=board(a_preset(1, "Farewell")),
    look_preset=_look,
)
