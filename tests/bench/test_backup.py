from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.clocks import StepClock
from tests.bench.ports import Kept, Mute
from tests.wires.in_memory import Script
from thruline.audit.capture import Came, Capture, caught
from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.backup import GAP_US, backup_from, lasts_us, paced, read_backup, restore, split

DUMP = b"\xf0\x7d\x03\x01\x02\x03\x04\x05\x71\xf7\xf0\x7d\x03\x01\x02\x03\x04\x06\x70\xf7"


def backup(raw=DUMP):
    capture = Capture(lines=("a",), entries=(Came(0, 1, raw),))
    return backup_from(
        caught(capture), unit="delay", name="a", chart="bramley", date="today", rig="The\npit"
    )


def test_it_is_what_was_kept():
    one = backup()
    assert one.raw == DUMP
    assert read_backup(one.raw, one.facts) == one


def test_clock_inside_and_who_it_is_are_no_part_of_it():
    reply = b"\xf0\x7e\x00\x06\x02\x7d\x03\x00\x01\x03\x01\x00\x00\x00\xf7"
    assert backup(reply + DUMP[:4] + b"\xf8" + DUMP[4:]).raw == DUMP


@pytest.mark.parametrize(
    ("raw", "says"),
    [(b"\xc0\x01", "no system exclusive came"), (DUMP[:-1], "exclusive 2 came broken"),
     (DUMP[:5] + b"\xc0\x01", "exclusive 1 came broken"),
     (b"\xf0\x7e\x7f\x06\x01\xf7", "only 1 message of other kinds"),
     (b"\xf0\x7f\x7f\x06\x02\xf7" * 2, "no memory came, only 2 messages")],
)  # fmt: skip
def test_half_a_memory_is_not_kept(raw, says):
    with pytest.raises(CannotUse, match=says):
        backup(raw)


@given(st.integers(0, len(DUMP) - 1), st.integers(1, 255))
def test_damage_is_never_sent(place, change):
    one, raw = backup(), bytearray(DUMP)
    raw[place] ^= change
    with pytest.raises(CannotUse, match="damaged"):
        read_backup(bytes(raw), one.facts)


@pytest.mark.parametrize("facts", [{"checksum": "magic"}, {"covered-from": "x"}])
def test_notes_that_make_no_sense(facts):
    one = backup()
    with pytest.raises(CannotUse, match="cannot be read"):
        read_backup(one.raw, {**one.facts, **facts})
    with pytest.raises(CannotUse, match="does not verify"):
        read_backup(one.raw, {**one.facts, "checksum": "sum", "covered-from": "1"})


def test_it_goes_back_only_when_the_unit_is_named():
    one, port, clock = backup(), Kept(), StepClock()
    for said in ("yes", "", "reverb"):
        with pytest.raises(CannotUse, match="was not confirmed"):
            restore(one, port, clock, confirmed=lambda said=said: said)
    assert port.sent == []
    begin = clock.now_us()
    assert restore(one, port, clock, confirmed=lambda: "delay ") == 2
    assert b"".join(port.sent) == DUMP
    assert clock.now_us() - begin >= GAP_US + 320 * len(port.sent[0])
    assert paced(()) == ()


@pytest.mark.parametrize(
    ("pulled_us", "says"),
    [
        (0, "0 of 2 messages were sent; the memory of delay is as it was"),
        (
            GAP_US + 4_000,
            "All messages were handed over, but the last of them may not have arrived",
        ),
    ],
)
def test_a_port_that_goes_without_a_word_is_told_all_the_same(pulled_us, says):
    clock = Script()
    port = Mute(clock)
    clock.at(pulled_us, port.pull)
    clock.wait_until(0)
    with pytest.raises(WorldFailed, match=f'"mute" is gone. {says}'):
        restore(backup(), port, clock, confirmed=lambda: "delay")


@given(st.binary(max_size=80))
def test_split_loses_nothing(raw):
    assert b"".join(split(raw)) == raw


class Tires(Kept):
    """A port that takes so many messages and no more."""

    def __init__(self, most):
        super().__init__()
        self.most = most

    def send(self, data):
        if len(self.sent) == self.most:
            raise WorldFailed("it is gone")
        super().send(data)


@pytest.mark.parametrize(("most", "says"), [(0, "is as it was"), (1, "half old and half new")])
def test_a_restore_that_breaks_off_says_what_the_unit_has(most, says):
    port = Tires(most)
    with pytest.raises(WorldFailed, match=f"it is gone. {most} of 2 messages .*{says}"):
        restore(backup(), port, StepClock(), confirmed=lambda: "delay")
    assert len(port.sent) == most


@given(
    st.dictionaries(
        st.sampled_from(["unit", "name", "chart", "date", "checksum", "covered-from", "rig"]),
        st.text(max_size=8) | st.integers().map(str),
    )
)
def test_notes_that_were_changed_are_told(changed):
    one = backup()
    with suppress(CannotUse):
        assert read_backup(one.raw, {**one.facts, **changed}).raw == one.raw


def test_a_port_that_cannot_carry_it_is_refused_before_anything_is_sent():
    port, asked = Kept(), []
    port.longest = 9
    with pytest.raises(CannotUse, match=r"message 1 of 2 has 10 bytes.* Nothing was sent"):
        restore(backup(), port, StepClock(), confirmed=lambda: asked.append(1) or "delay")
    assert (port.sent, asked) == ([], [])
    port.longest = 10
    restore(backup(), port, StepClock(), confirmed=lambda: "delay")
    assert len(port.sent) == 2


def test_how_long_it_takes_counts_the_last_message_too():
    assert lasts_us(()) == 0
    assert lasts_us(paced([bytes(20_000)])) == 6_400_000
    assert lasts_us(paced([bytes(10), bytes(10)])) == GAP_US + 20 * 320


def test_a_backup_tells_of_which_rig_it_is():
    one = backup()
    assert one.facts["rig"] == "The pit"
    one.look_at_rig("The pit")
    with pytest.raises(CannotUse, match='kept of the rig "The pit", and this is "Club"; not sent'):
        one.look_at_rig("Club")


def test_an_old_backup_does_not_tell_of_which_rig_and_can_be_read():
    one = backup()
    old = read_backup(one.raw, {key: one.facts[key] for key in one.facts if key != "rig"})
    old.look_at_rig("Club")
    assert old.rig_says == "it does not tell of which rig"
    assert "rig" not in old.facts
