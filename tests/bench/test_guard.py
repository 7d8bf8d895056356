import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.midi.any_message import messages
from thruline.base.errors import CannotUse
from thruline.bench.guard import Guarded, refuse_unasked
from thruline.midi.encode import encode
from thruline.midi.identity import IdentityRequest, request_to_message
from thruline.midi.message import RealTime, RealTimeKind, SystemExclusive


class Kept:
    name = "kept"

    def __init__(self):
        self.sent, self.closed = [], False

    def send(self, data):
        self.sent.append(data)

    def close(self):
        self.closed = True


@given(messages)
def test_only_what_plays_passes(message):
    try:
        refuse_unasked(encode(message))
    except CannotUse:
        assert isinstance(message, SystemExclusive) or message == RealTime(
            RealTimeKind.SYSTEM_RESET
        )
    else:
        assert not isinstance(message, SystemExclusive) or message.data[2:] == b"\x06\x01"
        assert message != RealTime(RealTimeKind.SYSTEM_RESET)


@given(st.integers(0, 127))
def test_the_question_who_is_there_passes(number):
    port = Kept()
    Guarded(port).send(encode(request_to_message(IdentityRequest(number))))
    assert len(port.sent) == 1


@pytest.mark.parametrize("data", [b"\xf0\x7d\x01\xf7", b"\xff", b"\xf0\x7e\x7f\x09\x01\xf7"])
def test_the_port_never_sees_what_is_held_back(data):
    port = Kept()
    guarded = Guarded(port)
    with pytest.raises(CannotUse, match="is not sent"):
        guarded.send(data)
    assert port.sent == []
    guarded.close()
    assert port.closed
    assert guarded.name == "kept"


@pytest.mark.parametrize(
    "data",
    ["", "b0 07 40 f0 7d 01 f7", "01 f0 7d 01 f7", "b0 07", "f4", "c0 f0", "f8 f8", "90 3c", "f7"],
)
def test_nothing_passes_behind_a_harmless_message(data):
    with pytest.raises(CannotUse, match="not one whole message"):
        refuse_unasked(bytes.fromhex(data))
