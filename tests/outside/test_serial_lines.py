import os
import sys
import threading
import time
import tty

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.clocks import StepClock
from thruline.base.errors import WorldFailed
from thruline.base.measures import BYTE_US
from thruline.outside.serial_lines import SLICE, SerialLine, SerialLines, _spread
from thruline.outside.wall_clock import SystemClock


def test_without_the_library_it_is_said_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "serial", None)
    with pytest.raises(WorldFailed, match=r"pip install 'thruline\[ports\]'"):
        SerialLines(SystemClock())


def test_a_line_that_is_not_there(tmp_path):
    pytest.importorskip("serial", reason="the library for serial ports is not installed")
    lines = SerialLines(SystemClock())
    assert isinstance(lines.inputs(), tuple)
    with pytest.raises(WorldFailed, match="cannot be opened"):
        lines.open_output(str(tmp_path / "none"))


@given(st.binary(min_size=1, max_size=50), st.integers(0, 10**9), st.integers(0, 10**6))
def test_bytes_read_at_once_came_one_after_the_other(data, after, later):
    found = _spread(data, after_us=after, now_us=after + later)
    times = [one.at_us for one in found]
    assert b"".join(one.data for one in found) == data
    assert times == sorted(times)
    assert after <= times[0] <= times[-1] == after + later


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no pseudo-terminals")
def test_a_message_may_take_longer_than_a_line_is_waited_for():
    """At the pace of the line: a memory of one long message is written whole, or not begun."""
    pytest.importorskip("serial", reason="the library for serial ports is not installed")
    far, near = os.openpty()
    tty.setraw(near)
    read, message = bytearray(), b"\xf0\x7d" + bytes(12_000) + b"\xf7"

    def take():
        while len(read) < len(message):
            time.sleep(0.02)
            read.extend(os.read(far, 64))

    reading = threading.Thread(target=take, daemon=True)
    reading.start()
    line = SerialLines(SystemClock()).open_output(os.ttyname(near))
    began = time.monotonic()
    panic = threading.Timer(0.5, line.send, [b"\xb0\x7b\x00"])
    panic.start()
    line.send(message)
    assert time.monotonic() - began > 2.5
    panic.join(30)
    line.land()
    while reading.is_alive() and time.monotonic() < began + 30:
        time.sleep(0.05)
    read.extend(os.read(far, 64) if len(read) == len(message) else b"")
    assert bytes(read) == message + b"\xb0\x7b\x00", "a panic waits for the end of a message"
    line.close()
    os.close(far)
    os.close(near)


def test_no_buffer_of_the_system_is_filled():
    """Some give room again only when all of it has gone, later than a line is waited for."""

    class Line:
        def __init__(self):
            self.waits = []

        def write(self, part):
            at_us = max(clock.now, self.waits[-1][1] if self.waits else 0)
            self.waits.append((clock.now, at_us + len(part) * BYTE_US))

    clock, port = StepClock(), Line()
    SerialLine(port, "A", clock).send(b"\xf0" + bytes(40_000) + b"\xf7")
    assert max(done - now for now, done in port.waits) <= 2 * SLICE * BYTE_US
    assert clock.now > 12_000_000


def test_a_list_that_the_system_does_not_give_is_a_failure_of_the_world(monkeypatch):
    pytest.importorskip("serial", reason="the library for serial ports is not installed")

    def fails():
        raise OSError("no such device")

    monkeypatch.setattr("serial.tools.list_ports.comports", fails)
    with pytest.raises(WorldFailed, match="cannot be listed: no such device"):
        SerialLines(SystemClock()).inputs()
