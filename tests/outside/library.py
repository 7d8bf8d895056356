"""A pretend port library: boxes that are plugged in and out, called as each system calls them."""

import sys
from pathlib import Path

from thruline.outside import midi_ports
from thruline.outside.midi_ports import SystemPorts

ALSA, JACK, CORE, MM = range(4)


class Box:
    """One box with one port; `number` is what the system gave it at its latest plugging."""

    def __init__(self, name):
        self.name, self.client, self.number = name, "", 0
        self.got, self.says, self.pluggings = [], [], 0


class Library:
    """What `rtmidi` gives, as far as ports need it; `api` is the one system that there is."""

    API_LINUX_ALSA, API_UNIX_JACK, API_MACOSX_CORE, API_WINDOWS_MM = ALSA, JACK, CORE, MM
    RtMidiError = RuntimeError

    def __init__(self, api, *names):
        self.api, self.boxes, self.plugged, self._next = api, [Box(name) for name in names], [], 20
        self.serves, self.asked, self.crashes = True, 0, 0
        self.ours, self.connections = [], []
        for box in self.boxes:
            self.plug_in(box)

    def plug_in(self, box, place=None):
        taken = [one.client for one in self.plugged]
        box.client = next(
            name
            for name in (f"{box.name}:midi", *(f"{box.name}-{n:02}:midi" for n in range(1, 99)))
            if name not in taken
        )
        box.number, self._next = self._next, self._next + 4
        box.pluggings += 1
        self.plugged.insert(len(self.plugged) if place is None else place, box)

    def unplug(self, box):
        self.plugged.remove(box)

    def names(self):
        match self.api:
            case 0:
                return [f"{box.name}:{box.name} MIDI 1 {box.number}:0" for box in self.plugged]
            case 1:
                return [box.client for box in self.plugged]
            case 2:
                return [box.name for box in self.plugged]
            case _:
                return [f"{box.name} {place}" for place, box in enumerate(self.plugged)]

    def die(self):
        """The server goes; what it told last is told on, until somebody connects anew."""
        told, self.serves, self.plugged = self.names(), False, []
        for port in self.connections:
            port.lives, port.told = False, told

    def begin_anew(self):
        self.serves = True
        for box in self.boxes:
            self.plug_in(box)

    def _free(self):
        """A new connection finds out that the server is not the one that there was."""
        for port in [one for one in self.ours if not one.lives]:
            port.is_freed = True
            self.ours.remove(port)

    def get_compiled_api(self):
        return [self.api]

    def get_api_display_name(self, api):
        return f"system {api}"

    def MidiIn(self, api, *, name, **_more):  # noqa: N802 - the library's name
        self._free()
        if not self.serves:
            raise self.RtMidiError("no server")
        return Port(self, lists_ours=True)

    def MidiOut(self, api, *, name, **_more):  # noqa: N802 - the library's name
        self._free()
        if not self.serves:
            raise self.RtMidiError("no server")
        return Port(self, lists_ours=False)


class Port:
    def __init__(self, library, *, lists_ours):
        self.library, self.box, self.lists_ours = library, None, lists_ours
        self.name, self.is_freed, self.lives, self.plugging = "", False, True, 0
        library.connections.append(self)

    def get_ports(self):
        self.library.asked += 1
        ours = [
            f"thruline:{one.name}" for one in self.library.ours if one.lists_ours != self.lists_ours
        ]
        known = self.library.names() if self.lives else self.told
        return [*known, *(ours if self.library.api == JACK else [])]

    def open_port(self, place, name):
        self.box, self.name = self.library.plugged[place], name
        self.plugging = self.box.pluggings
        self.library.ours.append(self)

    def ignore_types(self, **_which):
        pass

    @property
    def is_connected(self):
        return (
            self.lives and self.box in self.library.plugged and self.plugging == self.box.pluggings
        )

    def get_message(self):
        return (self.box.says.pop(0), 0.0) if self.is_connected and self.box.says else None

    def send_message(self, data):
        if self.is_connected:  # else it is lost without a word
            self.box.got.append(bytes(data))

    def close_port(self):
        self.library.crashes += self.is_freed
        self.box = None
        if self in self.library.ours:
            self.library.ours.remove(self)

    def delete(self):
        self.library.crashes += self.is_freed


def system_of(monkeypatch, clock, library):
    """The ports of a made-up library."""
    monkeypatch.setitem(sys.modules, "rtmidi", library)
    monkeypatch.setattr(midi_ports, "SEQUENCER", Path(__file__))
    return SystemPorts(clock)
