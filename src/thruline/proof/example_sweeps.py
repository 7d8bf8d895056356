"""A board with a pedal whose place is not sent on recall, for examples."""

from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_sweep, board
from thruline.proof.rule import Example

FEET = """
format = 1

[chart]
id = "plain-feet"
maker = "Example"
model = "Plain"
kind = "foot controller"
about = "An invented controller that does not send the place of its pedal on recall."

[[socket]]
id = "midi-out"
kind = "midi-out"
connector = "din5"

[[socket]]
id = "exp-1"
kind = "expression-in"
connector = "trs-6.35"

[[output]]
socket = "midi-out"
ways = ["own"]

[controller]
presets = 100
pauses = { step-ms = 1, longest-ms = 500 }

[[pedal]]
socket = "exp-1"
moves = 4
interval-ms = 10
"""


def swept(mix: int, *, heel: int = 0, toe: int = 100) -> Example:
    """A preset that sets the mix of a delay, which a pedal then moves."""
    rig = board(
        DELAY,
        TO_DELAY.replace("midi-out-1", "midi-out"),
        a_preset(1, "Storm", f"delay = {{ program = '2A', mix = {mix} }}"),
        a_sweep("Swell", f"unit = 'delay', control = 'mix', heel = {heel}, toe = {toe}"),
        controller="plain-feet",
    ).rig
    return Example(rig, charts=(FEET,))
