"""Facts about cables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.plan.cable_kinds import (
    AUDIO,
    EXPRESSION,
    KINDS,
    MIDI,
    PLUGS,
    POWER,
    SHORTEST,
    SOLD,
    STEP,
    USB,
    kind_of,
    made_length,
    sold_length,
)
from thruline.rig.socket import CONTACTS, SocketKind


@given(st.floats(0, 30_000))
def test_a_length_is_never_below_what_is_needed(least):
    for length in (made_length(least), sold_length(least)):
        assert length >= least
        assert length % STEP == 0
    assert made_length(least) < max(least + STEP, SHORTEST + 1)


@given(st.sampled_from(SOLD))
def test_what_is_sold_stays_as_it_is(length):
    assert sold_length(length) == length


def test_every_plug_has_its_size():
    assert set(PLUGS) == set(CONTACTS)
    assert all(one.angled is None or one.angled < one.straight for one in PLUGS.values())


def test_letters_tell_kinds_apart():
    assert len({kind.letter for kind in KINDS}) == len(KINDS)


@pytest.mark.parametrize(
    ("start", "stop", "plugs", "kind"),
    [
        ("midi-out", "midi-in", ("din5", "trs-3.5"), MIDI),
        ("usb", "usb", ("usb-a", "usb-b"), USB),
        ("power-out", "power-in", ("usb-a", "barrel-2.1"), POWER),
        ("expression-out", "expression-in", ("trs-6.35", "trs-6.35"), EXPRESSION),
        ("audio-out", "audio-in", ("ts-6.35", "ts-6.35"), AUDIO),
    ],
)
def test_the_kind_of_a_cable(start, stop, plugs, kind):
    assert kind_of(SocketKind(start), SocketKind(stop), plugs) is kind
