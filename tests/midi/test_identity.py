import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.midi.any_message import data, pairs
from thruline.base.errors import CannotUse
from thruline.midi.decode import decode
from thruline.midi.encode import encode
from thruline.midi.identity import (
    ALL_CALL,
    IdentityReply,
    IdentityRequest,
    maker_in_words,
    message_to_reply,
    message_to_request,
    reply_to_message,
    request_to_message,
)
from thruline.midi.message import SystemExclusive

makers = st.integers(1, 127).map(lambda one: bytes((one,))) | st.tuples(data, data).map(
    lambda two: bytes((0, *two))
)
replies = st.builds(
    IdentityReply,
    device=data,
    maker=makers,
    family=pairs,
    member=pairs,
    revision=st.lists(data, min_size=4, max_size=4).map(bytes),
)

SHORT = IdentityReply(device=16, maker=b"\x7d", family=1, member=130, revision=b"\1\2\3\4")
LONG = IdentityReply(device=16, maker=b"\0\x20\x7d", family=1, member=130, revision=b"\1\2\3\4")


@pytest.mark.parametrize("device", range(128))
def test_requests_come_back(device: int) -> None:
    request = IdentityRequest(device)
    assert message_to_request(request_to_message(request)) == request


def test_a_request_goes_to_all_unless_told_otherwise() -> None:
    assert IdentityRequest().device == ALL_CALL
    assert encode(request_to_message(IdentityRequest())).hex(" ") == "f0 7e 7f 06 01 f7"


@given(replies)
def test_replies_come_back(reply: IdentityReply) -> None:
    assert message_to_reply(reply_to_message(reply)) == reply


@pytest.mark.parametrize(
    ("reply", "raw"),
    [
        (SHORT, "f0 7e 10 06 02 7d 01 00 02 01 01 02 03 04 f7"),
        (LONG, "f0 7e 10 06 02 00 20 7d 01 00 02 01 01 02 03 04 f7"),
    ],
)
def test_replies_on_the_wire(reply: IdentityReply, raw: str) -> None:
    assert encode(reply_to_message(reply)).hex(" ") == raw
    message = decode(bytes.fromhex(raw))
    assert isinstance(message, SystemExclusive)
    assert message_to_reply(message) == reply


@given(st.lists(data, max_size=16).map(bytes) | replies.map(lambda one: reply_to_message(one).data))
def test_any_exclusive_is_told_apart(content: bytes) -> None:
    message = SystemExclusive(content)
    reply, request = message_to_reply(message), message_to_request(message)
    assert reply is None or reply_to_message(reply) == message
    assert request is None or request_to_message(request) == message
    assert reply is None or request is None


@pytest.mark.parametrize("missing", range(1, 13))
def test_a_reply_that_lacks_bytes_is_none(missing: int) -> None:
    whole = reply_to_message(LONG).data
    assert message_to_reply(SystemExclusive(whole[:-missing])) is None
    assert message_to_reply(SystemExclusive(whole + b"\0")) is None


@pytest.mark.parametrize("maker", [b"", b"\0", b"\0\1", b"\0\1\2\3", b"\1\2", b"\x80", b"\0\1\x80"])
def test_what_is_no_maker_is_refused(maker: bytes) -> None:
    with pytest.raises(CannotUse, match="is not a maker ID"):
        IdentityReply(device=0, maker=maker, family=0, member=0, revision=bytes(4))


@pytest.mark.parametrize("revision", [b"", bytes(3), bytes(5), b"\0\0\0\x80"])
def test_what_is_no_revision_is_refused(revision: bytes) -> None:
    with pytest.raises(CannotUse, match="is not a revision"):
        IdentityReply(device=0, maker=b"\x7d", family=0, member=0, revision=revision)


def test_numbers_out_of_range_are_refused() -> None:
    with pytest.raises(CannotUse, match="device 128"):
        IdentityRequest(128)
    with pytest.raises(CannotUse, match="family 16384"):
        IdentityReply(device=0, maker=b"\x7d", family=16384, member=0, revision=bytes(4))


@pytest.mark.parametrize(
    ("maker", "words"),
    [
        ("01", "01 (American)"),
        ("1F", "1F (American)"),
        ("20", "20 (European)"),
        ("40", "40 (Japanese)"),
        ("7C", "7C (other)"),
        ("7D", "7D (schools and research)"),
        ("7E", "7E (universal, no maker)"),
        ("7F", "7F (universal, no maker)"),
        ("00 1F 7F", "00 1F 7F (American)"),
        ("00 20 00", "00 20 00 (European)"),
        ("00 40 00", "00 40 00 (Japanese)"),
        ("00 7D 00", "00 7D 00 (other)"),
    ],
)
def test_where_a_maker_id_was_given_out(maker: str, words: str) -> None:
    assert maker_in_words(bytes.fromhex(maker)) == words
