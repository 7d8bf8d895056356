"""One suite for every kind of port."""

import time

import pytest

from tests.wires import kinds
from thruline.base.errors import WorldFailed
from thruline.bench.face import PortGone
from thruline.bench.plugged import HeldInput, HeldOutput, pick_port

pytestmark = kinds.IN_REAL_TIME

MESSAGES = [
    b"\xc2\x05", b"\xb2\x34\x40", b"\x90\x3c\x64", b"\xf8", b"\xfe", b"\xfa", b"\xe0\x00\x40",
    b"\xf2\x10\x00", b"\xf0\x7e\x7f\x06\x01\xf7", b"\xb2\x00\x7f", b"\xd1\x7f",
]  # fmt: skip


@pytest.fixture(params=["wires", "serial", "jack"])
def kind(request, tmp_path):
    make = {
        "wires": kinds.wires,
        "serial": kinds.serial_line,
        "jack": lambda: kinds.jack(tmp_path),
    }
    with make[request.param]() as found:
        yield found


def test_it_is_listed_and_picked_by_a_part_of_its_name(kind):
    if kind.ports.says == "serial lines":
        pytest.skip("a pseudo-terminal is opened by its name, and not listed")
    assert pick_port(kind.ports.inputs(), kind.input, what="input") == kind.input
    assert pick_port(kind.ports.outputs(), kind.output.upper(), what="output") == kind.output


def test_every_kind_of_message_goes_out_and_comes_in(kind):
    out, into = kind.ports.open_output(kind.output), kind.ports.open_input(kind.input)
    whole = b"".join(MESSAGES)
    kinds.send_all(out, MESSAGES)
    assert kinds.heard(kind, len(whole)) == whole
    before = kinds.CLOCK.now_us()
    for data in MESSAGES:
        kind.says(data)
        time.sleep(0.002)
    chunks = []
    end = time.monotonic() + 3
    while sum(len(one.data) for one in chunks) < len(whole) and time.monotonic() < end:
        chunks += into.take()
        time.sleep(0.001)
    assert b"".join(one.data for one in chunks) == whole
    times = [one.at_us for one in chunks]
    assert times == sorted(times)
    assert before - 100_000 < times[-1] <= kinds.CLOCK.now_us()
    out.close()
    into.close()


def test_nothing_is_lost_at_the_speed_of_the_line(kind):
    out = kind.ports.open_output(kind.output)
    messages = [bytes((0xB0, place & 0x7F, place >> 7 & 0x7F)) for place in range(300)]
    kinds.send_all(out, messages)
    assert kinds.heard(kind, 900) == b"".join(messages)
    out.close()


def test_a_message_that_the_system_would_lose_is_refused(kind):
    if kind.ports.says not in ("Jack", "JACK"):
        pytest.skip("this system loses none for its length")
    out = kind.ports.open_output(kind.output)
    with pytest.raises(WorldFailed, match="is not sent"):
        out.send(b"\xf0" + bytes(17_000) + b"\xf7")
    long = b"\xf0" + bytes(8_000) + b"\xf7"
    out.send(long)
    assert kinds.heard(kind, len(long)) == long
    out.close()


def test_it_goes_and_comes_back(kind):
    if kind.unplug is None:
        pytest.skip("a pseudo-terminal cannot be pulled out")
    into = HeldInput(kind.ports, kind.input, kinds.CLOCK)
    out = HeldOutput(kind.ports, kind.output)
    kind.unplug()
    assert until(lambda: into.take()[1]) == "gone"
    assert until(lambda: refused(out))
    kind.plug_in()
    assert until(lambda: into.take()[1]) == "back"
    assert until(lambda: not refused(out))
    into.close()
    out.close()


def until(done, seconds=4):
    end = time.monotonic() + seconds
    while not (found := done()) and time.monotonic() < end:
        time.sleep(0.01)
    return found


def refused(out):
    try:
        out.send(b"\xc0\x01")
    except PortGone:
        return True
    return False


def test_what_is_not_there_cannot_be_opened(kind):
    with pytest.raises(WorldFailed, match="no such port"):
        kind.ports.open_input("no such port")
