"""Pieces of small rig documents, from which rules make their examples."""

from thruline.proof.rule import Example


def board(*pieces: str, controller: str = "braeburn-six", charts: tuple[str, ...] = ()) -> Example:
    """A rig document of these pieces, behind a foot controller; `charts` are beside the samples."""
    return Example("\n".join((a_unit("feet", controller), *pieces)), charts=charts)


def a_unit(unit_id: str, chart: str, *rows: str) -> str:
    """A unit; `rows` are further rows of its table."""
    return _table("unit", f'id = "{unit_id}"', f'chart = "{chart}"', *rows)


def a_cable(start: str, stop: str, *rows: str, ends: str = "din5/din5") -> str:
    """A cable, between DIN sockets when nothing else is said."""
    return _table("cable", f'from = "{start}"', f'to = "{stop}"', f'ends = "{ends}"', *rows)


def a_power_lead(start: str, stop: str, *rows: str) -> str:
    """A lead between the usual barrel sockets."""
    return a_cable(start, stop, *rows, ends="barrel-2.1/barrel-2.1")


def a_preset(number: int, name: str, *rows: str) -> str:
    """A preset; `rows` say what it wants."""
    return _table("preset", f"number = {number}", f'name = "{name}"', *rows)


def a_sweep(name: str, *moves: str, presets: str = '"all"', pedal: str = "feet.exp-1") -> str:
    """A sweep; each move is the inside of an inline table."""
    rows = [f"  {{ {move} }}," for move in moves]
    parts = (f'name = "{name}"', f'pedal = "{pedal}"', f"presets = {presets}")
    return _table("sweep", *parts, "moves = [", *rows, "]")


def a_song(name: str, presets: str, *rows: str) -> str:
    """A song of the setlist."""
    return _table("song", f'name = "{name}"', f"presets = {presets}", *rows)


def an_audio_path(*stages: str) -> str:
    """The audio path."""
    path = ", ".join(f'"{stage}"' for stage in stages)
    return f"[audio]\npath = [{path}]\n"


def _table(key: str, *rows: str) -> str:
    return "\n".join((f"[[{key}]]", *rows, ""))


DELAY = a_unit("delay", "bramley-delay", "channel = 3")
"""A delay on channel 3, with letters in its labels, a real THRU, deaf while it loads."""
REVERB = a_unit("reverb", "pippin-reverb", "channel = 4")
"""A reverb on channel 4 with jack sockets for MIDI."""
TO_DELAY = a_cable("feet.midi-out-1", "delay.midi-in")
"""The controller straight into the delay."""
DELAY_TO_REVERB = a_cable(
    "delay.midi-thru", "reverb.midi-in", 'wiring = "type-a"', ends="din5/trs-3.5"
)
"""From the delay's THRU on to the reverb."""
