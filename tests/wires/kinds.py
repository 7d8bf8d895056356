"""Every kind of port as one thing to test: an input, an output, and a peer at the far ends."""

import contextlib
import os
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from thruline.bench.face import InPort, OutPort, Ports
from thruline.outside.midi_ports import SystemPorts
from thruline.outside.midi_wires import Wires
from thruline.outside.serial_lines import SerialLines
from thruline.outside.wall_clock import SystemClock

CLOCK = SystemClock()


@dataclass(frozen=True)
class Kind:
    """A system of ports with one name to listen to and one to send to.

    `says` makes the far end send, `hears` is what has come to the far end.
    """

    ports: Ports
    input: str
    output: str
    says: Callable[[bytes], None]
    hears: Callable[[], bytes]
    unplug: Callable[[], None] | None = None
    plug_in: Callable[[], None] | None = None


IN_REAL_TIME = pytest.mark.flaky(reruns=2)
"""For tests over a real server: on a machine that is busy elsewhere a message may come too late."""


@contextlib.contextmanager
def wires() -> Iterator[Kind]:
    ports = Wires("to us", "from us", clock=CLOCK)
    far_out, far_in = ports.open_output("to us"), ports.open_input("from us")
    yield Kind(
        ports=ports,
        input="to us",
        output="from us",
        says=far_out.send,
        hears=lambda: b"".join(one.data for one in far_in.take()),
        unplug=lambda: [ports.unplug(name) for name in ("to us", "from us")] and None,
        plug_in=lambda: [ports.plug_in(name) for name in ("to us", "from us")] and None,
    )


@contextlib.contextmanager
def serial_line() -> Iterator[Kind]:
    pytest.importorskip("serial", reason="the library for serial ports is not installed")
    pty = pytest.importorskip("pty", reason="there are no pseudo-terminals here")
    tty = pytest.importorskip("tty", reason="there are no pseudo-terminals here")
    ends = [pty.openpty() for _ in range(2)]
    for pair in ends:
        for end in pair:
            tty.setraw(end)
            os.set_blocking(end, False)
    (far_out, near_in), (far_in, near_out) = ends

    def hears() -> bytes:
        try:
            return os.read(far_in, 4096)
        except BlockingIOError:
            return b""

    yield Kind(
        ports=SerialLines(CLOCK),
        input=os.ttyname(near_in),
        output=os.ttyname(near_out),
        says=lambda data: os.write(far_out, data) and None,
        hears=hears,
    )
    for pair in ends:
        for end in pair:
            os.close(end)


@contextlib.contextmanager
def jack_server(folder: Path) -> Iterator[None]:
    """A JACK server of this test's own, without sound hardware."""
    if shutil.which("jackd") is None:
        pytest.skip("no JACK server is installed (on Debian: jackd2)")
    before = {key: os.environ.get(key) for key in ("JACK_DEFAULT_SERVER", "JACK_NO_START_SERVER")}
    name = f"thruline{os.getpid()}"
    os.environ |= {"JACK_DEFAULT_SERVER": name, "JACK_NO_START_SERVER": "1"}
    command = ["jackd", "-n", name, "-r", "-S", "-d", "dummy", "-r", "48000", "-p", "64"]
    with (folder / "jackd.log").open("wb") as log:
        server = subprocess.Popen(
            command, stdout=log, stderr=log, env={**os.environ, "JACK_NO_AUDIO_RESERVATION": "1"}
        )
    try:
        _wait_for(
            lambda: (
                subprocess.run(
                    ["jack_lsp"],  # noqa: S607 - found as jackd is
                    capture_output=True,
                    check=False,
                ).returncode
                == 0
            )
        )
        yield
    finally:
        server.terminate()
        try:
            server.wait(10)
        except subprocess.TimeoutExpired:  # a client that ended without a word keeps it waiting
            server.kill()
            server.wait()
        for key, value in before.items():
            if value is None:
                os.environ.pop(key, None)
            else:
                os.environ[key] = value


def _wait_for(done: Callable[[], bool], seconds: float = 10) -> None:
    end = time.monotonic() + seconds
    while not done():
        if time.monotonic() > end:
            raise TimeoutError("what was waited for did not come")
        time.sleep(0.05)


class JackPeer:
    """The far end: a program with a port of each kind, which can go and come back."""

    def __init__(self) -> None:
        self.came: list[int] = []
        self.come()

    def come(self) -> None:
        rtmidi = pytest.importorskip("rtmidi")
        self.out = rtmidi.MidiOut(rtmidi.API_UNIX_JACK, name="peer")
        self.out.open_virtual_port("speaks")
        self.inp = rtmidi.MidiIn(rtmidi.API_UNIX_JACK, name="peer-ear")
        self.inp.ignore_types(False, False, False)
        self.inp.open_virtual_port("hears")
        self.inp.set_callback(lambda event, _: self.came.extend(event[0]))

    def go(self) -> None:
        self.inp.cancel_callback()
        for port in (self.out, self.inp):
            port.close_port()
            port.delete()

    def hears(self) -> bytes:
        data, self.came[:] = bytes(self.came), []
        return data


@contextlib.contextmanager
def jack(folder: Path) -> Iterator[Kind]:
    rtmidi = pytest.importorskip("rtmidi", reason="the port library is not installed")
    if rtmidi.API_UNIX_JACK not in rtmidi.get_compiled_api():
        pytest.skip("the port library knows no JACK here")
    with jack_server(folder):
        peer = JackPeer()
        ports = SystemPorts(CLOCK)
        yield Kind(
            ports=ports,
            input=next(name for name in ports.inputs() if "speaks" in name),
            output=next(name for name in ports.outputs() if "hears" in name),
            says=peer.out.send_message,
            hears=peer.hears,
            unplug=peer.go,
            plug_in=peer.come,
        )
        with contextlib.suppress(Exception):
            peer.go()


def begun(log: Path, word: str = "# rows", seconds: float = 30) -> None:
    """Come back when a program has written that into its log, so that it surely listens."""
    _wait_for(lambda: log.exists() and word in log.read_text(), seconds)


def listened_to(seconds: float = 30) -> None:
    """Come back when a program has connected itself to what the far end says.

    It may still throw away what waited at its port before it began; that takes a moment.
    """

    def is_connected() -> bool:
        told = subprocess.run(
            ["jack_lsp", "-c", "peer:speaks"],  # noqa: S607 - found as jackd is
            capture_output=True,
            check=False,
            text=True,
        )
        return "thruline" in told.stdout

    _wait_for(is_connected, seconds)
    time.sleep(1)


def taken(port: InPort, count: int, seconds: float = 3) -> bytes:
    """What an input takes until it has so many bytes."""
    data, end = b"", time.monotonic() + seconds
    while len(data) < count and time.monotonic() < end:
        data += b"".join(one.data for one in port.take())
        time.sleep(0.002)
    return data


def heard(kind: Kind, count: int, seconds: float = 10) -> bytes:
    """What the far end hears until it has so many bytes."""
    data, end = b"", time.monotonic() + seconds
    while len(data) < count and time.monotonic() < end:
        data += kind.hears()
        time.sleep(0.002)
    return data


def send_all(port: OutPort, messages: list[bytes]) -> None:
    """Send at the speed of a line."""
    moment = CLOCK.now_us()
    for data in messages:
        CLOCK.wait_until(moment)
        port.send(data)
        moment += 320 * len(data)
