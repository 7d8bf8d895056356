import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.bench.dump import (
    Checksum,
    Guarding,
    checksum_of,
    guarding_of,
    holds_memory,
    is_whole,
    troubles,
    verifies,
)

KINDS = [Checksum.TWOS, Checksum.SUM, Checksum.XOR]
bodies = st.binary(min_size=12, max_size=60).map(lambda raw: bytes(one & 0x7F for one in raw))


def message(kind, first, body):
    whole = b"\xf0" + body
    return whole + bytes((checksum_of(kind, whole[first:]), 0xF7))


def test_the_usual_example():
    assert checksum_of(Checksum.TWOS, b"\x10\x20\x30") == 0x20
    assert checksum_of(Checksum.SUM, b"\x10\x20\x30") == 0x60
    assert checksum_of(Checksum.XOR, b"\x10\x20\x30") == 0


@given(st.sampled_from(KINDS), st.integers(1, 6), bodies, st.data())
def test_a_turned_bit_does_not_verify(kind, first, body, data):
    whole = message(kind, first, body)
    assert verifies(whole, Guarding(kind, first))
    at = data.draw(st.integers(first, len(whole) - 2))
    spoiled = bytearray(whole)
    spoiled[at] ^= 1 << data.draw(st.integers(0, 6))
    assert not verifies(bytes(spoiled), Guarding(kind, first))
    assert troubles([whole, bytes(spoiled)], Guarding(kind, first)) == [
        "message 2 does not verify: its checksum is not right"
    ]


@given(
    st.sampled_from(KINDS), st.integers(1, 6), st.lists(bodies, min_size=3, max_size=6, unique=True)
)
def test_a_checksum_that_is_recognised_holds_for_all(kind, first, found):
    messages = [message(kind, first, body) for body in found]
    guarding = guarding_of(messages)
    assert guarding.kind is not Checksum.NONE
    assert not troubles(messages, guarding)


def test_one_message_alone_tells_nothing():
    one = message(Checksum.TWOS, 1, bytes(range(20)))
    assert guarding_of([one, one]).kind is Checksum.NONE


@pytest.mark.parametrize(
    "raw", [b"", b"\xf0\xf7", b"\xf0\x01", b"\x01\x02\xf7", b"\xf0\x90\x01\xf7"]
)
def test_what_is_not_whole(raw):
    assert not is_whole(raw)
    assert troubles([raw], Guarding(Checksum.NONE)) == [
        "message 1 is not whole: it does not run from F0 to F7"
    ]


def test_nothing_is_no_dump():
    assert troubles([], Guarding(Checksum.NONE)) == ["there is nothing in it"]


@pytest.mark.parametrize(
    ("message", "is_memory"),
    [
        ("f0 7d 03 01 f7", True),
        ("f0 00 21 7e 01 f7", True),
        ("f0 7e 00 07 02 00 f7", True),
        ("f0 7e 00 08 01 00 f7", True),
        ("f0 7e 00 06 02 7d f7", False),
        ("f0 7e 00 09 01 f7", False),
        ("f0 7e f7", False),
        ("f0 7f 7f 06 02 f7", False),
        ("f0 7f 00 08 02 00 f7", False),
    ],
)
def test_a_question_and_its_answer_are_no_memory(message, is_memory):
    assert holds_memory(bytes.fromhex(message)) is is_memory
