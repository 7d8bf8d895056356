"""What a unit makes of the messages that reach it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.timing.boards import BYTE, hear, listener
from thruline.rig.programs import WireProgram
from thruline.rig.values import ControlKind
from thruline.timing.fate import Fate
from thruline.timing.receive import Reception, hears_channel

PC, CC = 0xC2, 0xB2
DELAY = listener("bramley-delay")
ECHO = listener("laxton-echo", 'settings = { control-receive = "yes" }')
BASS = listener("worcester-bass", 'settings = { omni = "OFF" }')
LOOPER = listener("jonagold-looper")
BANK_0 = ((CC, 0, 0), (CC, 32, 0))


def fates(reception: Reception) -> list[Fate]:
    return list(reception.fates)


def test_bank_and_program_load_a_label() -> None:
    heard = hear(DELAY, *BANK_0, (PC, 3))
    assert fates(heard) == [Fate.PREPARES, Fate.PREPARES, Fate.OBEYED]
    assert heard.program == WireProgram(0, 3)
    assert not heard.old_bank


def test_a_program_without_its_whole_bank_relies_on_before() -> None:
    assert hear(DELAY, (PC, 3)).old_bank
    assert hear(DELAY, (CC, 32, 0), (PC, 3)).old_bank


def test_a_bank_that_is_cleared_is_known_for_the_next_program() -> None:
    twice = hear(BASS, (CC, 0, 1), (PC, 3), (PC, 4))
    assert twice.program == WireProgram(0, 4)
    assert not twice.old_bank


def test_a_program_that_is_not_there() -> None:
    assert fates(hear(DELAY, (CC, 0, 9), (CC, 32, 0), (PC, 3)))[-1] is Fate.NO_PROGRAM


def test_another_channel_is_left_alone() -> None:
    heard = hear(DELAY, (0xC3, 3), (0xB3, 14, 1))
    assert fates(heard) == [Fate.OTHER_CHANNEL, Fate.OTHER_CHANNEL]
    assert heard.right_us is None


def test_what_a_setting_refuses_is_not_taken() -> None:
    deaf = listener("bramley-delay", 'settings = { program-receive = "off" }')
    assert fates(hear(deaf, (PC, 3))) == [Fate.NOT_TAKEN]
    refusing = listener("laxton-echo", 'settings = { control-receive = "no" }')
    assert fates(hear(refusing, (CC, 16, 3))) == [Fate.NOT_TAKEN]


def test_lost_held_and_obeyed_while_loading() -> None:
    at_once = {"gap": 0}
    assert fates(hear(DELAY, *BANK_0, (PC, 3), (CC, 14, 9), **at_once))[-1] is Fate.LOST
    assert fates(hear(ECHO, (PC, 3), (CC, 16, 9), **at_once))[-1] is Fate.HELD
    pitch = listener("gala-pitch")
    assert fates(hear(pitch, (PC, 3), (CC, 22, 9), **at_once))[-1] is Fate.OBEYED


def test_a_missing_fact_decides_nothing() -> None:
    tremolo = listener("mutsu-tremolo", channel=1)
    heard = hear(tremolo, (0xB0, 32, 1), (0xC0, 3), (0xB0, 1, 9), gap=0)
    assert fates(heard)[-1] is Fate.CANNOT_TELL


def test_it_hears_again_exactly_when_it_has_loaded() -> None:
    loaded = hear(DELAY, *BANK_0, (PC, 3)).loading[0]
    assert loaded[1] - loaded[0] == 40_000
    for early, fate in ((1, Fate.LOST), (0, Fate.OBEYED)):
        heard = hear(DELAY, *BANK_0, (PC, 3), (CC, 14, 9), gap=40_000 - early)
        assert fates(heard)[-1] is fate


def test_right_is_after_loading_and_after_the_last_control() -> None:
    heard = hear(DELAY, *BANK_0, (PC, 3), (CC, 14, 9), gap=50_000)
    assert heard.right_us == 3 * 50_000 + (3 + 3 + 2 + 3) * BYTE + 5_000


def test_a_program_sets_aside_what_was_set_before() -> None:
    heard = hear(DELAY, (CC, 14, 9), *BANK_0, (PC, 3), (CC, 15, 7))
    assert heard.before_program == {"mix": 9}
    assert heard.values == {"repeats": 7}


def test_a_pair_is_coarse_then_fine() -> None:
    assert hear(DELAY, (CC, 16, 3), (CC, 48, 5)).values == {"time": 3 * 128 + 5}
    assert hear(DELAY, (CC, 48, 5), (CC, 16, 3)).values == {"time": 3 * 128}


def test_unknown_numbers_and_values() -> None:
    assert fates(hear(DELAY, (CC, 41, 5))) == [Fate.NO_CONTROL]
    assert fates(hear(DELAY, (CC, 123, 0))) == [Fate.NOT_CONCERNED]
    assert fates(hear(DELAY, (0x92, 60, 100))) == [Fate.NOT_CONCERNED]


def test_parameters_are_selected_and_then_entered() -> None:
    select = ((CC, 99, 1030 >> 7), (CC, 98, 1030 & 127))
    heard = hear(BASS, *select, (CC, 6, 20))
    assert fates(heard) == [Fate.PREPARES, Fate.PREPARES, Fate.OBEYED]
    assert heard.values == {"glide": 20 * 128}
    fine = hear(BASS, *select, (CC, 6, 20), (CC, 38, 7))
    assert fine.values == {"glide": 20 * 128 + 7}
    closed = hear(BASS, *select, (CC, 101, 127), (CC, 100, 127), (CC, 6, 20))
    assert fates(closed)[-1] is Fate.NOT_CONCERNED
    assert fates(hear(BASS, select[0], (CC, 6, 20)))[-1] is Fate.HALF
    assert fates(hear(BASS, (CC, 6, 20))) == [Fate.NO_CONTROL]


def test_flips_are_counted_and_presses_leave_nothing() -> None:
    assert hear(LOOPER, (CC, 103, 127), (CC, 103, 0)).flips == {"play": 2}
    pressed = hear(LOOPER, (CC, 105, 127))
    assert (pressed.flips, dict(pressed.values)) == ({}, {})
    assert fates(pressed) == [Fate.OBEYED]


def test_a_unit_in_omni_hears_every_channel() -> None:
    lights = listener("discovery-lights", 'settings = { omni = "All" }', channel=16)
    assert all(hears_channel(lights.unit, channel) for channel in range(1, 17))
    assert fates(hear(lights, (0xC0, 3))) == [Fate.OBEYED]


def test_a_unit_of_two_channels_hears_both() -> None:
    heard = [channel for channel in range(1, 17) if hears_channel(BASS.unit, channel)]
    assert heard == [3, 4]


_MESSAGE = st.one_of(
    st.tuples(st.integers(0x80, 0xBF), st.integers(0, 127), st.integers(0, 127)),
    st.tuples(st.integers(0xC0, 0xDF), st.integers(0, 127)),
    st.tuples(st.integers(0xE0, 0xEF), st.integers(0, 127), st.integers(0, 127)),
    st.tuples(st.sampled_from([0xF8, 0xFA, 0xFE, 0xF6])),
)


@pytest.mark.parametrize("ear", [DELAY, ECHO, BASS, LOOPER], ids=lambda ear: ear.unit.chart.id)
@given(messages=st.lists(_MESSAGE, max_size=12), gap=st.sampled_from([0, 900, 50_000]))
def test_any_messages_have_one_fate_each(
    ear: object, messages: list[tuple[int, ...]], gap: int
) -> None:
    heard = hear(ear, *messages, gap=gap)  # type: ignore[arg-type]
    assert len(heard.fates) == len(messages)
    controls = ear.unit.chart.controls  # type: ignore[attr-defined]
    for name, value in heard.values.items():
        assert controls[name].low <= value <= controls[name].high
        assert controls[name].kind is not ControlKind.MOMENTARY
