"""What the standard calls the control numbers that it has given a meaning.

Source: MIDI 1.0 Detailed Specification, table III, with the later additions of RP-021 (70 to 79),
RP-023 (91, 93) and CA-031 (88). A number that is not here is free for private use.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from thruline.midi.numbers import FINE_OFFSET
from thruline.midi.specs import MODE_NAMES

_COARSE: Final = {
    0: "bank select",
    1: "modulation wheel",
    2: "breath controller",
    4: "foot controller",
    5: "portamento time",
    6: "data entry",
    7: "channel volume",
    8: "balance",
    10: "pan",
    11: "expression",
    12: "effect control 1",
    13: "effect control 2",
    16: "general purpose 1",
    17: "general purpose 2",
    18: "general purpose 3",
    19: "general purpose 4",
}
_SINGLE: Final = {
    64: "damper pedal",
    65: "portamento on or off",
    66: "sostenuto",
    67: "soft pedal",
    68: "legato foot switch",
    69: "hold 2",
    70: "sound variation",
    71: "timbre or harmonic content",
    72: "release time",
    73: "attack time",
    74: "brightness",
    75: "decay time",
    76: "vibrato rate",
    77: "vibrato depth",
    78: "vibrato delay",
    79: "sound controller 10",
    80: "general purpose 5",
    81: "general purpose 6",
    82: "general purpose 7",
    83: "general purpose 8",
    84: "portamento control",
    88: "high resolution velocity prefix",
    91: "reverb send",
    92: "tremolo depth",
    93: "chorus send",
    94: "celeste depth",
    95: "phaser depth",
    96: "data increment",
    97: "data decrement",
    98: "NRPN, fine half",
    99: "NRPN, coarse half",
    100: "RPN, fine half",
    101: "RPN, coarse half",
}

CONTROL_NAMES: Final[Mapping[int, str]] = MappingProxyType(
    {
        **_COARSE,
        **{number + FINE_OFFSET: f"{name}, fine half" for number, name in _COARSE.items()},
        **_SINGLE,
        **MODE_NAMES,
    }
)
"""Control number to name, in the order of the numbers; 120 to 127 are the channel mode messages."""
