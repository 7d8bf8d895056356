"""A port of a real server that goes at any moment around a sending: it is told in this sending."""

import contextlib
import random
import subprocess
import sys
import threading
import time

import pytest

from tests.routed import case_of_two_lines
from tests.samples.reading import ORCHARD
from tests.wires import kinds
from thruline.app.send import pick_sweep, preset_step
from thruline.app.sweep import played_travel
from thruline.base.errors import WorldFailed
from thruline.bench.backup import Backup, restore
from thruline.bench.dump import guarding_of
from thruline.bench.guard import Guarded
from thruline.bench.plugged import HeldInput, HeldOutput
from thruline.bench.port_list import PortList
from thruline.bench.send import Planned
from thruline.bench.several import Way, play_again, play_parted
from thruline.bench.systems import Systems
from thruline.bench_wiring import bench_keeping
from thruline.outside.midi_ports import SystemPorts
from thruline.outside.open_ports import UNSEEN_US
from thruline.proof.case import Case
from thruline.wiring import open_file
from thruline.workbench.bench import Bench

pytestmark = kinds.IN_REAL_TIME
CLOCK = kinds.CLOCK
AWAY_SECONDS = UNSEEN_US / 1e6 + 0.1
PLAN = [Planned(at * 12_000, bytes((0xC0, at)), "delay") for at in range(10)]
DATA = [one.data for one in PLAN]


class Ear:
    """A program with a port that takes messages, which can go and come back.

    It fetches what came: a server that has to wait for Python repeats messages of an earlier round.
    """

    def __init__(self, name):
        self.name, self._came, self._lock = name, [], threading.Lock()
        self.come()

    def come(self):
        rtmidi = pytest.importorskip("rtmidi")
        self.port = rtmidi.MidiIn(rtmidi.API_UNIX_JACK, name=self.name, queue_size_limit=4096)
        self.port.ignore_types(False, False, False)
        self.port.open_virtual_port("in")
        self.is_there = True

    @property
    def came(self):
        """All that has come since it was forgotten."""
        with self._lock:
            return self._fetch()

    def _fetch(self):
        while self.is_there and (event := self.port.get_message()) is not None:
            self._came.append(bytes(event[0]))
        return [*self._came]

    def forget(self):
        """Whatever came before does not count."""
        with self._lock:
            self._fetch()
            self._came.clear()

    def go(self):
        with self._lock:
            self._fetch()
            self.is_there = False
            self.port.close_port()
            self.port.delete()

    def goes_in(self, seconds):
        gone = threading.Timer(seconds, self.go)
        gone.start()
        return gone


@pytest.fixture
def ears(tmp_path):
    """Two ears on a server, and the ports there."""
    pytest.importorskip("rtmidi", reason="the port library is not installed")
    with kinds.jack_server(tmp_path):
        both = Ear("left"), Ear("right")
        yield (*both, SystemPorts(CLOCK))
        for ear in both:
            if ear.is_there:
                ear.go()


def ways_to(ports):
    return [Way(Guarded(HeldOutput(ports, f"{name}:in"))) for name in ("left", "right")]


def until(is_so, seconds=5):
    end = time.monotonic() + seconds
    while not is_so():
        assert time.monotonic() < end
        time.sleep(0.01)


def test_whenever_it_goes_it_is_told_or_everything_came(ears):
    left, right, ports = ears
    ways, rng = ways_to(ports), random.Random(5)
    for turn in range(6):
        left.forget()
        right.forget()
        gone = right.goes_in(rng.uniform(0, 0.4))
        if turn % 3 == 0:
            time.sleep(rng.uniform(0, 0.3))
        took = play_parted(PLAN, ways, CLOCK)
        heard = [*right.came]
        gone.join()
        assert (took[0].trouble, left.came) == ("", DATA)
        assert heard == DATA or "is gone" in took[1].trouble
        time.sleep(AWAY_SECONDS)
        right.forget()
        right.come()
        lost = [one for one in took if one.trouble]
        assert not any(one.trouble for one in play_again(lost, CLOCK))
        assert right.came == (DATA if lost else [])
    for way in ways:
        way.port.close()


def test_one_that_is_back_before_anybody_looked_is_sent_to(ears):
    _left, right, ports = ears
    ways = ways_to(ports)
    for _ in range(2):
        assert not any(one.trouble for one in play_parted(PLAN, ways, CLOCK))
        right.go()
        time.sleep(AWAY_SECONDS)
        right.come()
        right.forget()
        assert not any(one.trouble for one in play_parted(PLAN, ways, CLOCK))
        assert right.came == DATA
    for way in ways:
        way.port.close()


def test_a_sweep_and_a_restore_tell_it_too(ears):
    left, right, ports = ears
    case = Case(open_file(ORCHARD).rig)
    sweep = pick_sweep(case, "Swell")
    to_left, to_right = ways_to(ports)
    gone = left.goes_in(0.6)
    with pytest.raises(WorldFailed, match='"left:in" is gone'):
        list(played_travel(case, sweep, ways=[to_left, to_right], clock=CLOCK, seconds=1))
    gone.join()
    dumps = (b"\xf0\x7d\x01\xf7", b"\xf0\x7d\x02\xf7")
    kept = Backup(
        unit="delay", name="a", chart="x", date="", guarding=guarding_of(dumps), messages=dumps
    )
    held = HeldOutput(ports, "right:in")
    gone = right.goes_in(0.35)  # the last has left, and may be on its way
    with pytest.raises(WorldFailed, match='"right:in" is gone'):
        restore(kept, held, CLOCK, confirmed=lambda: "delay")
    gone.join()
    for port in (to_left.port, to_right.port, held):
        port.close()


def test_the_bench_tells_it_and_sends_again_once_it_is_back(ears, tmp_path, monkeypatch):
    left, right, ports = ears
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path))
    listed = PortList(Systems({"": lambda: ports}, CLOCK), CLOCK)
    bench, case = Bench("pit", listed, CLOCK, bench_keeping("pit")), case_of_two_lines()
    bench.open(case, [], [("left:in", "midi-out-1"), ("right:in", "midi-out-2")])
    bench.sound_is_down(is_it=True)
    step = preset_step(case, 1, overs=bench.overs(case))
    own = [one.data for one in step.messages if one.over == "midi-out-2"]
    sending = lambda: bench.as_json()["sending"]  # noqa: E731 - asked often
    right.go()
    bench.send("preset 1", [step])
    until(lambda: sending()["progress"] == "failed")
    assert 'port "right:in" is gone' in sending()["says"]
    assert [one["there"] for one in bench.as_json()["open"]["outputs"]] == [True, False]
    right.come()
    until(lambda: [one["there"] for one in bench.as_json()["open"]["outputs"]] == [True, True])
    bench.again()
    until(lambda: sending()["progress"] == "done")
    assert right.came == own
    left.go()
    until(lambda: [one["there"] for one in bench.as_json()["open"]["outputs"]] == [False, True])
    bench.close()


FAR = """
import sys, rtmidi
inp = rtmidi.MidiIn(rtmidi.API_UNIX_JACK, name="ear")
out = rtmidi.MidiOut(rtmidi.API_UNIX_JACK, name="mouth")
inp.open_virtual_port("in"); out.open_virtual_port("out")
print("there", flush=True); sys.stdin.readline()
for one in (inp, out):
    one.close_port(); one.delete()
"""


@contextlib.contextmanager
def far_away(tmp_path):
    """A server, and a program with a port each way on it; both are gone afterwards."""
    with kinds.jack_server(tmp_path):
        pipe = subprocess.PIPE
        command = [sys.executable, "-c", FAR]
        with subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=pipe, text=True) as far:
            try:
                assert far.stdout.readline() == "there\n"
                yield
            finally:
                far.communicate("end\n", timeout=10)


def test_a_server_that_ends_is_told_and_one_that_begins_anew_is_used(tmp_path):
    pytest.importorskip("rtmidi", reason="the port library is not installed")
    with far_away(tmp_path):
        ports = SystemPorts(CLOCK)
        way, listens = Way(HeldOutput(ports, "ear:in")), HeldInput(ports, "mouth:out", CLOCK)
        assert not play_parted(PLAN, [way], CLOCK)[0].trouble
    assert "is gone" in play_parted(PLAN, [way], CLOCK)[0].trouble
    until(lambda: listens.take()[1] == "gone")
    with far_away(tmp_path):
        until(lambda: listens.take()[1] == "back")
        assert not play_parted(PLAN, [way], CLOCK)[0].trouble
        way.port.close()
        listens.close()
