import pytest

from thruline.midi import specs
from thruline.midi.specs import KIND_OF_STATUS, KINDS, Family, Running


def test_every_status_has_one_kind() -> None:
    assert sorted(KIND_OF_STATUS) == list(range(0x80, 0x100))
    assert set(KIND_OF_STATUS.values()) == set(KINDS)


def test_names_are_used_once() -> None:
    assert len({kind.name for kind in KINDS}) == len(KINDS)


@pytest.mark.parametrize("status", range(0x80, 0xF0))
def test_a_channel_status_is_found_on_all_sixteen_channels(status: int) -> None:
    kind = KIND_OF_STATUS[status]
    assert kind.family is Family.CHANNEL
    assert kind.status == status & 0xF0


@pytest.mark.parametrize(
    ("status", "length"),
    [
        (0x80, 3), (0x90, 3), (0xA0, 3), (0xB0, 3), (0xC0, 2), (0xD0, 2), (0xE0, 3),
        (0xF0, None), (0xF1, 2), (0xF2, 3), (0xF3, 2), (0xF4, 1), (0xF5, 1), (0xF6, 1), (0xF7, 1),
        (0xF8, 1), (0xF9, 1), (0xFA, 1), (0xFB, 1), (0xFC, 1), (0xFD, 1), (0xFE, 1), (0xFF, 1),
    ],
)  # fmt: skip
def test_lengths_are_those_of_the_standard(status: int, length: int | None) -> None:
    assert KIND_OF_STATUS[status].length == length


def test_four_statuses_are_undefined() -> None:
    assert [kind.status for kind in KINDS if not kind.defined] == [0xF4, 0xF5, 0xF9, 0xFD]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_only_channel_messages_set_running_status(kind: specs.Kind) -> None:
    assert (kind.running is Running.SETS) == (kind.family is Family.CHANNEL)


def test_real_time_keeps_running_status_but_for_reset() -> None:
    real_time = {kind for kind in KINDS if kind.family is Family.REAL_TIME}
    keeping = {kind for kind in KINDS if kind.running is Running.KEEPS}
    assert real_time - keeping == {specs.SYSTEM_RESET}
    assert keeping < real_time


def test_modes_are_the_last_eight_controls() -> None:
    assert list(specs.MODE_NAMES) == list(range(120, 128))
