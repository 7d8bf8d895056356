"""A file and a store in memory, for desks in tests."""

from dataclasses import replace

from tests.opening import with_head
from thruline.app.desk import Keeping
from thruline.base.errors import CannotUse, NotThere
from thruline.outside.shelves import sample_shelf

BOARD = """
[[unit]]
id = "feet"
chart = "braeburn-six"
[[unit]]
id = "delay"  # the good one
chart = "bramley-delay"
channel = 3
[[cable]]
from = "feet.midi-out-1"
to = "delay.midi-in"
ends = "din5/din5"
[[preset]]
number = 1
name = "Clean"
delay = { mix = 10 }
[[preset]]
number = 2
name = "Lead"
delay = { mix = 90 }
"""


class FileInMemory:
    says = "example.rig.toml"

    def __init__(self, text):
        self.content = text.encode()

    def read(self):
        if self.content is None:
            raise NotThere("example.rig.toml is not there")
        return self.content

    def write(self, text, *, expected):
        if self.content != expected:
            raise CannotUse("changed")
        self.content = text.encode()


class RevisionsInMemory:
    def __init__(self):
        self.history = None
        self.known = {}
        self.texts = {}

    def recall(self):
        return self.history

    def keep(self, history, revision=None, text=""):
        self.history = history
        if revision is not None:
            self.known[revision.number] = revision
            self.texts[revision.number] = text

    def text(self, number):
        if number not in self.texts:
            raise CannotUse(f"there is no revision {number} of this rig")
        return self.texts[number]

    def listed(self):
        return tuple(reversed(self.known.values()))

    def give_name(self, number, name):
        self.known[number] = (self.known[number], name)


class ChartsInMemory:
    """Charts beside a rig in memory."""

    def __init__(self):
        self.known = {}

    def ids(self):
        return tuple(sorted(self.known))

    def kept(self, chart_id):
        return self.known.get(chart_id) or (FileInMemory(""), RevisionsInMemory())

    def lay(self, chart_id, text):
        self.known[chart_id] = (FileInMemory(text), RevisionsInMemory())

    def users(self, chart_id):
        return ()

    def take_away(self, chart_id):
        del self.known[chart_id]


class SearchesInMemory:
    """The record of searches in memory."""

    def __init__(self):
        self.known = []

    def keep(self, kept, *, instead_of=0):
        number = instead_of or len(self.known) + 1
        self.known[number - 1 : number] = [replace(kept, number=number)]
        return number

    def listed(self):
        return tuple(reversed(self.known))


class HeardInMemory:
    """Captures in memory."""

    def __init__(self):
        self.known = {}

    def names(self):
        return tuple(self.known)

    def read(self, name):
        if name not in self.known:
            raise CannotUse(f'there is no capture "{name}" of this rig')
        return self.known[name]


class SearchInMemory:
    """A search in memory."""

    def __init__(self):
        self.data = None

    def recall(self):
        return self.data

    def keep(self, data):
        self.data = data


def keeping(text=BOARD):
    return Keeping(
        file=FileInMemory(with_head(text)),
        revisions=RevisionsInMemory(),
        shelves=(sample_shelf(),),
        charts=ChartsInMemory(),
        search=SearchInMemory(),
        searches=SearchesInMemory(),
        heard=HeardInMemory(),
        rig="example",
    )
