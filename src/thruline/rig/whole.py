"""The rig: all of it together."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from thruline.base.address import Address
from thruline.base.edit import Plain
from thruline.rig.audio import Audio
from thruline.rig.cable import Cable
from thruline.rig.chart import Footprint
from thruline.rig.preset import Preset
from thruline.rig.song import Song
from thruline.rig.sweep import Sweep
from thruline.rig.unit import Unit


class Lack(StrEnum):
    """What kind of thing a document names that is not there."""

    UNIT = "unit"
    SOCKET = "socket"
    SETTING = "setting"
    SETTING_VALUE = "setting-value"
    CONTROL = "control"
    PRESET = "preset"
    LOOP = "loop"
    MESSAGE = "message"
    PLUG = "plug"
    WIRING = "wiring"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unresolved:
    """Something the document names that is not there: what, where, and what may be meant.

    `says` is a sentence for people; `nearest` is a name that does exist and looks alike. `instead`
    is the value to write at the address so that it names that; None where a key is wrong. `held` is
    then what stands under the key; None where the nearest name stands beside it already.
    """

    lack: Lack
    address: Address
    found: str
    says: str
    nearest: str | None = None
    instead: str | None = None
    held: "Plain | None" = None


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A finding that the people concerned live with, and why."""

    finding: str
    reason: str
    address: Address


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """A board and all that is asked of it. Everything in it is in document order."""

    name: str
    controller: Unit | None
    units: Mapping[str, Unit]
    cables: tuple[Cable, ...]
    audio: Audio | None
    presets: tuple[Preset, ...]
    sweeps: tuple[Sweep, ...]
    songs: tuple[Song, ...]
    acceptances: tuple[Acceptance, ...]
    unresolved: tuple[Unresolved, ...]
    slowest_change_us: int
    board: Footprint | None
    about: str = ""

    @property
    def programs_from(self) -> int:
        """What the controller's own screen calls the first program: 0 or 1; 0 without one."""
        abilities = self.controller.chart.abilities if self.controller else None
        return abilities.programs_from if abilities else 0

    def preset(self, number: int) -> Preset | None:
        """The first preset of that number, if there is one."""
        return next((preset for preset in self.presets if preset.number == number), None)
