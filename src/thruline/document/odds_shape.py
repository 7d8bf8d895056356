"""The shape of odds: how much likelier than usual something is to fail so."""

from typing import Annotated, Literal

from pydantic import Field

from thruline.document.shape import Shape

FaultKind = Literal[
    "input-dead", "output-dead", "output-not-passing", "output-echoes", "channel-above",
    "channel-below", "channel-of-another", "omni-on", "back-to-factory", "programs-off",
    "controls-off", "clock-in-off", "clock-out-off", "two-clocks", "numbers-one-up",
    "numbers-one-down", "numbers-mapped", "bank-byte-other", "frozen", "unit-dead",
    "loads-slowly", "not-stored", "other-firmware", "entry-missing", "entry-other-channel",
    "entry-one-up", "entry-one-down", "entry-beyond", "bank-not-sent", "bank-after-program",
    "bank-halves-swapped", "controls-not-sent", "controls-before-program", "control-other-number",
    "switch-halfway", "switch-inverted", "fine-before-coarse", "parameter-left-open",
    "toggle-out-of-step", "panic-sent", "pauses-not-entered", "memory-not-written", "page-wrong",
    "no-power", "power-reversed", "power-voltage", "power-ac-dc", "power-sags",
    "shared-outlet-whine", "ground-loop", "pedal-reversed", "pedal-other-wiring",
    "pedal-not-calibrated", "pedal-taper", "pedal-mono-lead", "pedal-worn", "pedal-unplugged",
    "pedal-jumps", "loop-contact", "loop-swapped", "loop-lead-open", "input-overflows",
    "running-status-missed", "joined-late", "stuck-in-dump", "dumps-off", "dumps-held-back",
    "sensing-stops", "note-hangs", "local-off", "clock-unsteady", "sends-at-power-up",
    "control-renumbered", "number-shared", "low-voltage-out", "loop-thumps", "loop-too-early",
]  # fmt: skip
"""The kinds of fault that a unit can have, as the fault finder names them."""


class OddsShape(Shape):
    """How likely a unit is to fail in one way, against what is usual for it."""

    fault: Annotated[
        FaultKind, Field(description="The kind of fault, as in the list of all of them.")
    ]
    times: Annotated[
        float | int,
        Field(gt=0, le=1000, description="So many times likelier than usual.", examples=[5]),
    ]
