"""One row for each way in which a board can fail, with its odds before anyone has looked.

The odds are per thing that can fail so, relative to a lead with an open wire (1.0). They are
guesses of the trade; a chart that knows better, and what a workshop has seen, move them.
"""

from collections.abc import Mapping
from types import MappingProxyType

from thruline.find.kinds import Action, Kind, Row

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
    _K.INPUT_OVERFLOWS: Row(
        0.1, "the input of {what} loses messages that come too close together", _A.SEND_LESS,
        "send {what} less at once: pauses between its messages, fewer of them, thinner sweeps"),
    _K.RUNNING_STATUS_MISSED: Row(
        0.15, "{what} does not understand running status", _A.SEND_EVERY_STATUS,
        "let whatever feeds {what} send every status byte, or put a soft thru that does before it"),
    _K.JOINED_LATE: Row(
        0.05, "{what} was switched on in the middle of running status, and waits for a status byte",
        _A.POWER_ORDER, "press another preset; after that, switch {what} on before the controller",
        sometimes=True),
    _K.STUCK_IN_DUMP: Row(
        0.06, "{what} still waits for the end of a dump that broke off", _A.RESTART_UNIT,
        "switch {what} off and on, and send dumps slower"),
    _K.DUMPS_OFF: Row(
        0.15, "{what} keeps system exclusive out", _A.SET_MENU, "set {what} as the plan says"),
    _K.DUMPS_HELD_BACK: Row(
        0.1, "{what} does not pass system exclusive on", _A.OPEN_FOR_DUMPS,
        "let {what} pass system exclusive, or go round it for dumps"),
    _K.SENSING_STOPS: Row(
        0.08, "active sensing reaches {what} and then stops, and {what} cuts its sound",
        _A.SET_SENSING, "let all of the active sensing through to {what}, or none of it"),
    _K.NOTE_HANGS: Row(
        0.1, "the end of a note to {what} gets lost, and the note hangs", _A.LET_NOTES_END,
        "release {what} with control 64 at 0, then 123; find the filter or split on its way "
        "that eats the ends of notes"),
    _K.LOCAL_OFF: Row(
        0.06, "{what} has its own keys cut off from its sound (local control)", _A.SET_MENU,
        "set {what} as the plan says: local control on"),
    _K.CLOCK_UNSTEADY: Row(
        0.12, "the clock comes unevenly to {what}", _A.STEADY_CLOCK,
        "thin the sweeps on the line to {what}, and let clock go first wherever lines are merged"),
    _K.SENDS_AT_POWER_UP: Row(
        0.1, "{what} sends something as it is switched on, and units behind it act on that",
        _A.POWER_ORDER, "switch {what} on first, and recall the preset after that"),
    _K.CONTROL_RENUMBERED: Row(
        0.15, "{what} listens for its controls on other numbers than planned", _A.SET_NUMBERING,
        "set the control numbers of {what} as its chart says"),
    _K.NUMBER_SHARED: Row(
        0.1, "two controls of {what} listen to one number", _A.SET_NUMBERING,
        "give each control of {what} the number that its chart says"),
    _K.LOW_VOLTAGE_OUT: Row(
        0.15, "{what} gets too little current from an output that drives it at 3.3 V",
        _A.PUT_BUFFER_IN, "put a thru box or a buffer between the two, or use an isolated input"),
    _K.LOOP_THUMPS: Row(
        0.2, "{what} thumps as it switches: a voltage stands on it, and the MIDI is right",
        _A.MEND_LOOP, "have a pull-down resistor put on {what}; until then mute, switch, unmute"),
    _K.LOOP_TOO_EARLY: Row(
        0.25, "{what} is switched before what hangs in it has loaded", _A.CORRECT_ENTRY,
        "let the presets switch {what} after the unit in it has loaded"),
}  # fmt: skip
ROWS: Mapping[Kind, Row] = MappingProxyType(_ROWS)
"""Every kind of fault."""
