"""A pretend port library: boxes that are plugged in and out, called as each system calls them."""

ALSA, JACK, CORE, MM = range(4)


class Box:
    """One box with one port; `number` is what the system gave it at its latest plugging."""

    def __init__(self, name):
        self.name, self.client, self.number = name, "", 0
        self.got, self.says = [], []


class Library:
    """What `rtmidi` gives, as far as ports need it; `api` is the one system that there is."""

    API_LINUX_ALSA, API_UNIX_JACK, API_MACOSX_CORE, API_WINDOWS_MM = ALSA, JACK, CORE, MM
    RtMidiError = RuntimeError

    def __init__(self, api, *names):
        self.api, self.boxes, self.plugged, self._next = api, [Box(name) for name in names], [], 20
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

    def get_compiled_api(self):
        return [self.api]

    def get_api_display_name(self, api):
        return f"system {api}"

    def MidiIn(self, _api, **_more):  # noqa: N802 - the library's name
        return Port(self)

    MidiOut = MidiIn


class Port:
    def __init__(self, library):
        self.library, self.box = library, None

    def get_ports(self):
        return self.library.names()

    def open_port(self, place, name):
        self.box = self.library.plugged[place]

    def ignore_types(self, **_which):
        pass

    def get_message(self):
        return (self.box.says.pop(0), 0.0) if self.box.says else None

    def send_message(self, data):
        if self.box in self.library.plugged:  # else it is lost without a word
            self.box.got.append(bytes(data))

    def close_port(self):
        self.box = None

    def delete(self):
        pass
