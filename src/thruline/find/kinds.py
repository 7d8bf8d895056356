"""Ways in which a board can fail: one row for each, with its odds before anyone has looked.

The odds are per thing that can fail so, relative to a lead with an open wire (1.0). They are
guesses of the trade; what a workshop has seen moves them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType


class Action(StrEnum):
    """What is done about a fault. Faults of one thing with one action need not be told apart."""

    REPLACE_CABLE = "replace-cable"
    SEAT_PLUG = "seat-plug"
    MOVE_PLUG = "move-plug"
    REPAIR_SOCKET = "repair-socket"
    SET_MENU = "set-menu"
    SET_CHANNEL = "set-channel"
    RESTORE_UNIT = "restore-unit"
    SET_NUMBERING = "set-numbering"
    RESTART_UNIT = "restart-unit"
    SEND_UNIT_IN = "send-unit-in"
    STORE_IN_UNIT = "store-in-unit"
    UPDATE_UNIT = "update-unit"
    CORRECT_ENTRY = "correct-entry"
    WRITE_MEMORY = "write-memory"
    CHOOSE_PAGE = "choose-page"
    GIVE_POWER = "give-power"
    CORRECT_POWER = "correct-power"
    MOVE_POWER = "move-power"
    OPEN_GROUND = "open-ground"
    SET_PEDAL = "set-pedal"
    REPLACE_PEDAL = "replace-pedal"
    MEND_LOOP = "mend-loop"
    ONE_CLOCK = "one-clock"
    SET_TOOL = "set-tool"


@dataclass(frozen=True, slots=True)
class Row:
    """One kind of fault: its odds, what it is (`{what}` is the thing), and what is done about it.

    `sometimes` marks faults that come and go.
    """

    odds: float
    says: str
    action: Action
    mend: str
    sometimes: bool = False


class Kind(StrEnum):
    """The kinds of fault."""

    CABLE_OPEN = "cable-open"
    CABLE_CROSSED = "cable-crossed"
    CABLE_OTHER_TYPE = "cable-other-type"
    CABLE_MONO_PLUG = "cable-mono-plug"
    CABLE_LOOSE = "cable-loose"
    CABLE_SHIELD_OPEN = "cable-shield-open"
    CABLE_TOO_LONG = "cable-too-long"
    CABLE_NOT_SEATED = "cable-not-seated"
    CABLE_INTO_OUTPUT = "cable-into-output"
    CABLE_FROM_OTHER_OUTPUT = "cable-from-other-output"
    INPUT_DEAD = "input-dead"
    OUTPUT_DEAD = "output-dead"
    OUTPUT_NOT_PASSING = "output-not-passing"
    OUTPUT_ECHOES = "output-echoes"
    CHANNEL_ABOVE = "channel-above"
    CHANNEL_BELOW = "channel-below"
    CHANNEL_OF_ANOTHER = "channel-of-another"
    OMNI_ON = "omni-on"
    BACK_TO_FACTORY = "back-to-factory"
    PROGRAMS_OFF = "programs-off"
    CONTROLS_OFF = "controls-off"
    CLOCK_IN_OFF = "clock-in-off"
    CLOCK_OUT_OFF = "clock-out-off"
    TWO_CLOCKS = "two-clocks"
    NUMBERS_ONE_UP = "numbers-one-up"
    NUMBERS_ONE_DOWN = "numbers-one-down"
    NUMBERS_MAPPED = "numbers-mapped"
    BANK_BYTE_OTHER = "bank-byte-other"
    FROZEN = "frozen"
    UNIT_DEAD = "unit-dead"
    LOADS_SLOWLY = "loads-slowly"
    NOT_STORED = "not-stored"
    OTHER_FIRMWARE = "other-firmware"
    ENTRY_MISSING = "entry-missing"
    ENTRY_OTHER_CHANNEL = "entry-other-channel"
    ENTRY_ONE_UP = "entry-one-up"
    ENTRY_ONE_DOWN = "entry-one-down"
    ENTRY_BEYOND = "entry-beyond"
    BANK_NOT_SENT = "bank-not-sent"
    BANK_AFTER_PROGRAM = "bank-after-program"
    BANK_HALVES_SWAPPED = "bank-halves-swapped"
    CONTROLS_NOT_SENT = "controls-not-sent"
    CONTROLS_BEFORE_PROGRAM = "controls-before-program"
    CONTROL_OTHER_NUMBER = "control-other-number"
    SWITCH_HALFWAY = "switch-halfway"
    SWITCH_INVERTED = "switch-inverted"
    FINE_BEFORE_COARSE = "fine-before-coarse"
    PARAMETER_LEFT_OPEN = "parameter-left-open"
    TOGGLE_OUT_OF_STEP = "toggle-out-of-step"
    PANIC_SENT = "panic-sent"
    PAUSES_NOT_ENTERED = "pauses-not-entered"
    MEMORY_NOT_WRITTEN = "memory-not-written"
    PAGE_WRONG = "page-wrong"
    NO_POWER = "no-power"
    POWER_REVERSED = "power-reversed"
    POWER_VOLTAGE = "power-voltage"
    POWER_AC_DC = "power-ac-dc"
    POWER_SAGS = "power-sags"
    SHARED_OUTLET_WHINE = "shared-outlet-whine"
    GROUND_LOOP = "ground-loop"
    USB_NOISE = "usb-noise"
    PEDAL_REVERSED = "pedal-reversed"
    PEDAL_OTHER_WIRING = "pedal-other-wiring"
    PEDAL_NOT_CALIBRATED = "pedal-not-calibrated"
    PEDAL_TAPER = "pedal-taper"
    PEDAL_MONO_LEAD = "pedal-mono-lead"
    PEDAL_WORN = "pedal-worn"
    PEDAL_UNPLUGGED = "pedal-unplugged"
    PEDAL_JUMPS = "pedal-jumps"
    LOOP_CONTACT = "loop-contact"
    LOOP_SWAPPED = "loop-swapped"
    LOOP_LEAD_OPEN = "loop-lead-open"
    TOOL_FAULT = "tool-fault"


_K, _A = Kind, Action
_ENTRY = "in the controller, correct what the presets send to {what}, and write it"
_ROWS: Mapping[Kind, Row] = {
    _K.CABLE_OPEN: Row(
        1.0, "a wire in {what} is open", _A.REPLACE_CABLE, "replace {what}"),
    _K.CABLE_CROSSED: Row(
        0.15, "{what} has its two wires crossed", _A.REPLACE_CABLE, "replace {what}"),
    _K.CABLE_OTHER_TYPE: Row(
        0.8, "{what} is of the other TRS type", _A.REPLACE_CABLE,
        "replace {what} by one of the right type, and label it"),
    _K.CABLE_MONO_PLUG: Row(
        0.25, "{what} has a two-contact plug", _A.REPLACE_CABLE,
        "replace {what} by one with three contacts"),
    _K.CABLE_LOOSE: Row(
        0.4, "{what} has a loose joint: it comes and goes", _A.REPLACE_CABLE, "replace {what}",
        sometimes=True),
    _K.CABLE_SHIELD_OPEN: Row(
        0.08, "the shield of {what} is open: errors now and then", _A.REPLACE_CABLE,
        "replace {what}", sometimes=True),
    _K.CABLE_TOO_LONG: Row(
        0.3, "{what} is too long for a sure signal", _A.REPLACE_CABLE,
        "shorten the run of {what}, or put a repeater in it", sometimes=True),
    _K.CABLE_NOT_SEATED: Row(
        0.8, "a plug of {what} is not in", _A.SEAT_PLUG, "push both plugs of {what} home"),
    _K.CABLE_INTO_OUTPUT: Row(
        0.5, "{what} ends in an output instead of the input", _A.MOVE_PLUG,
        "put {what} into the input"),
    _K.CABLE_FROM_OTHER_OUTPUT: Row(
        0.5, "{what} comes out of the wrong output", _A.MOVE_PLUG,
        "put {what} into the output that the plan names"),
    _K.INPUT_DEAD: Row(
        0.15, "the input {what} is dead", _A.REPAIR_SOCKET, "have the socket {what} repaired"),
    _K.OUTPUT_DEAD: Row(
        0.15, "the output {what} is dead", _A.REPAIR_SOCKET, "have the socket {what} repaired"),
    _K.OUTPUT_NOT_PASSING: Row(
        0.9, "{what} is set so that it does not send on", _A.SET_MENU,
        "set {what} as the plan says"),
    _K.OUTPUT_ECHOES: Row(
        0.2, "{what} is set so that it sends on what it should not", _A.SET_MENU,
        "set {what} as the plan says"),
    _K.CHANNEL_ABOVE: Row(
        0.5, "{what} is set one channel too high", _A.SET_CHANNEL, "set the channel of {what}"),
    _K.CHANNEL_BELOW: Row(
        0.5, "{what} is set one channel too low", _A.SET_CHANNEL, "set the channel of {what}"),
    _K.CHANNEL_OF_ANOTHER: Row(
        0.3, "{what} is set to the channel of another unit", _A.SET_CHANNEL,
        "set the channel of {what}"),
    _K.OMNI_ON: Row(
        0.4, "{what} lets every channel in", _A.SET_MENU, "set {what} as the plan says"),
    _K.BACK_TO_FACTORY: Row(
        0.3, "{what} has gone back to its factory settings", _A.RESTORE_UNIT,
        "set every menu item of {what} again, and back it up"),
    _K.PROGRAMS_OFF: Row(
        0.5, "{what} keeps program changes out", _A.SET_MENU,
        "set {what} as the plan says"),
    _K.CONTROLS_OFF: Row(
        0.4, "{what} keeps control changes out", _A.SET_MENU,
        "set {what} as the plan says"),
    _K.CLOCK_IN_OFF: Row(
        0.4, "{what} keeps the clock out", _A.SET_MENU, "set {what} as the plan says"),
    _K.CLOCK_OUT_OFF: Row(
        0.4, "{what} sends no clock", _A.SET_MENU, "set {what} as the plan says"),
    _K.TWO_CLOCKS: Row(
        0.2, "{what} sends clock as well, so there are two", _A.ONE_CLOCK,
        "set {what} as the plan says"),
    _K.NUMBERS_ONE_UP: Row(
        0.35, "{what} counts programs one higher than planned", _A.SET_NUMBERING,
        "correct how {what} counts programs"),
    _K.NUMBERS_ONE_DOWN: Row(
        0.35, "{what} counts programs one lower than planned", _A.SET_NUMBERING,
        "correct how {what} counts programs"),
    _K.NUMBERS_MAPPED: Row(
        0.15, "{what} has a program map that leads elsewhere", _A.SET_NUMBERING,
        "clear the program map of {what}"),
    _K.BANK_BYTE_OTHER: Row(
        0.15, "{what} reads the other bank select message", _A.SET_NUMBERING,
        "set which bank select {what} reads"),
    _K.FROZEN: Row(
        0.2, "{what} hangs and hears nothing until it is switched off and on", _A.RESTART_UNIT,
        "switch {what} off and on"),
    _K.UNIT_DEAD: Row(
        0.1, "{what} is broken", _A.SEND_UNIT_IN, "have {what} repaired"),
    _K.LOADS_SLOWLY: Row(
        0.2, "{what} loads more slowly than its chart says, and misses what follows",
        _A.CORRECT_ENTRY, "let the controls of {what} wait longer after its program"),
    _K.NOT_STORED: Row(
        0.5, "an edit in {what} was never stored", _A.STORE_IN_UNIT,
        "make the sound in {what} again, and store it there"),
    _K.OTHER_FIRMWARE: Row(
        0.08, "{what} has another firmware than its chart", _A.UPDATE_UNIT,
        "update {what}, or give it a chart of its own"),
    _K.ENTRY_MISSING: Row(
        0.6, "the controller has no entry for {what}", _A.CORRECT_ENTRY, _ENTRY),
    _K.ENTRY_OTHER_CHANNEL: Row(
        0.4, "the controller sends to {what} on another channel", _A.CORRECT_ENTRY, _ENTRY),
    _K.ENTRY_ONE_UP: Row(
        0.5, "the controller sends {what} a program number one too high", _A.CORRECT_ENTRY,
        _ENTRY),
    _K.ENTRY_ONE_DOWN: Row(
        0.3, "the controller sends {what} a program number one too low", _A.CORRECT_ENTRY,
        _ENTRY),
    _K.ENTRY_BEYOND: Row(
        0.1, "the controller asks {what} for a program that it does not have", _A.CORRECT_ENTRY,
        _ENTRY),
    _K.BANK_NOT_SENT: Row(
        0.4, "the controller sends {what} no bank select", _A.CORRECT_ENTRY, _ENTRY),
    _K.BANK_AFTER_PROGRAM: Row(
        0.25, "the controller sends {what} its bank after the program", _A.CORRECT_ENTRY, _ENTRY),
    _K.BANK_HALVES_SWAPPED: Row(
        0.2, "the controller sends {what} the two bank selects swapped", _A.CORRECT_ENTRY, _ENTRY),
    _K.CONTROLS_NOT_SENT: Row(
        0.3, "the controller sends {what} no control changes", _A.CORRECT_ENTRY, _ENTRY),
    _K.CONTROLS_BEFORE_PROGRAM: Row(
        0.3, "the controller sends the controls of {what} before its program", _A.CORRECT_ENTRY,
        _ENTRY),
    _K.CONTROL_OTHER_NUMBER: Row(
        0.3, "the controller sends {what} another control number", _A.CORRECT_ENTRY, _ENTRY),
    _K.SWITCH_HALFWAY: Row(
        0.2, "the controller sends a switch of {what} a value that is neither off nor on",
        _A.CORRECT_ENTRY, _ENTRY),
    _K.SWITCH_INVERTED: Row(
        0.2, "the controller sends a switch of {what} the wrong way round", _A.CORRECT_ENTRY,
        _ENTRY),
    _K.FINE_BEFORE_COARSE: Row(
        0.1, "the controller sends {what} the fine half of a value first", _A.CORRECT_ENTRY,
        _ENTRY),
    _K.PARAMETER_LEFT_OPEN: Row(
        0.1, "the controller leaves a parameter of {what} selected", _A.CORRECT_ENTRY, _ENTRY),
    _K.TOGGLE_OUT_OF_STEP: Row(
        0.3, "a control of {what} that every press flips is out of step", _A.RESTART_UNIT,
        "switch {what} off and on, and set its state by a program"),
    _K.PANIC_SENT: Row(
        0.05, "the presets silence {what} each time", _A.CORRECT_ENTRY, _ENTRY),
    _K.PAUSES_NOT_ENTERED: Row(
        0.3, "the pauses between the messages were not entered in {what}", _A.WRITE_MEMORY,
        "enter the pauses in {what}, and write it"),
    _K.MEMORY_NOT_WRITTEN: Row(
        0.6, "the presets were never written to {what}", _A.WRITE_MEMORY,
        "write the presets to {what}, and read them back"),
    _K.PAGE_WRONG: Row(
        0.3, "{what} is on another page or song", _A.CHOOSE_PAGE,
        "choose the right page on {what}"),
    _K.NO_POWER: Row(
        0.8, "{what} has no power", _A.GIVE_POWER, "give {what} power: outlet, lead, switch"),
    _K.POWER_REVERSED: Row(
        0.1, "{what} gets its power the wrong way round", _A.CORRECT_POWER,
        "give {what} a lead of the right polarity; have it looked at if it stays dark"),
    _K.POWER_VOLTAGE: Row(
        0.15, "{what} gets the wrong voltage", _A.CORRECT_POWER, "move {what} to the right outlet"),
    _K.POWER_AC_DC: Row(
        0.05, "{what} gets AC instead of DC, or DC instead of AC", _A.CORRECT_POWER,
        "give {what} the right adapter"),
    _K.POWER_SAGS: Row(
        0.2, "the supply of {what} sags: it restarts now and then", _A.MOVE_POWER,
        "give {what} an outlet with more current", sometimes=True),
    _K.SHARED_OUTLET_WHINE: Row(
        0.2, "{what} whines through a shared outlet", _A.MOVE_POWER,
        "give {what} an isolated outlet of its own"),
    _K.GROUND_LOOP: Row(
        0.25, "a second ground path through {what} hums", _A.OPEN_GROUND,
        "isolate one audio or USB path of {what}; never the protective earth"),
    _K.USB_NOISE: Row(
        0.15, "the USB lead of {what} brings noise", _A.OPEN_GROUND,
        "put an isolator into the USB lead of {what}"),
    _K.PEDAL_REVERSED: Row(
        0.3, "{what} works the wrong way round", _A.SET_PEDAL, "set the direction of {what}"),
    _K.PEDAL_OTHER_WIRING: Row(
        0.4, "{what} is wired for another standard than its input is set to", _A.SET_PEDAL,
        "set the input to the wiring of {what}"),
    _K.PEDAL_NOT_CALIBRATED: Row(
        0.5, "{what} is not calibrated", _A.SET_PEDAL, "calibrate {what}"),
    _K.PEDAL_TAPER: Row(
        0.15, "{what} has another taper", _A.REPLACE_PEDAL,
        "choose another curve for {what}, or a linear pot"),
    _K.PEDAL_MONO_LEAD: Row(
        0.3, "{what} is on a two-contact lead", _A.REPLACE_CABLE,
        "put {what} on a lead with three contacts"),
    _K.PEDAL_WORN: Row(
        0.25, "the track of {what} is worn: its values flicker", _A.REPLACE_PEDAL,
        "clean or replace the pot of {what}"),
    _K.PEDAL_UNPLUGGED: Row(
        0.3, "{what} is not plugged in", _A.SEAT_PLUG, "push the plugs of {what} home"),
    _K.PEDAL_JUMPS: Row(
        0.2, "{what} does not send where it stands on a recall", _A.SET_PEDAL,
        "let {what} send its place on a recall"),
    _K.LOOP_CONTACT: Row(
        0.2, "the relay of {what} makes bad contact", _A.MEND_LOOP,
        "have the relay of {what} cleaned or replaced"),
    _K.LOOP_SWAPPED: Row(
        0.3, "send and return of {what} are swapped", _A.MEND_LOOP,
        "swap the two plugs of {what}, and label them"),
    _K.LOOP_LEAD_OPEN: Row(
        0.6, "an audio lead in {what} is open", _A.MEND_LOOP, "replace the lead in {what}"),
    _K.TOOL_FAULT: Row(
        0.3, "the computer’s own MIDI interface fails", _A.SET_TOOL,
        "reinstall or replace the interface"),
}  # fmt: skip
ROWS: Mapping[Kind, Row] = MappingProxyType(_ROWS)
"""Every kind of fault."""
