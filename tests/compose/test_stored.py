"""What a controller's memory holds, as a sending."""

from tests.opening import open_text
from thruline.compose.stored import stored_sending
from thruline.proof.example_boards import DELAY, board
from thruline.rig.preset import Stored
from thruline.rig.stored import read_stored
from thruline.timing.sending import Purpose, Sending

UNITS = open_text(board(DELAY).rig).rig.units


def sending(*texts: str) -> Sending:
    stored = [read_stored(text, programs_from=1) for text in texts]
    known: list[Stored] = [one for one in stored if one is not None]
    assert len(known) == len(texts)
    return stored_sending(known, UNITS)


def test_messages_are_meant_for_the_unit_of_their_channel() -> None:
    items = sending(
        "3: control 0 = 0", "3: program 4", "3: control 52 = 9", "9: control 1 = 2"
    ).items
    assert [item.unit for item in items] == ["delay", "delay", "delay", None]
    assert [item.part for item in items] == ["program", "program", "mix", None]
    assert [item.purpose for item in items] == [
        Purpose.BANK,
        Purpose.PROGRAM,
        Purpose.CONTROL,
        Purpose.CONTROL,
    ]


def test_screens_count_from_one_and_the_wire_from_nought() -> None:
    assert sending("3: program 4").items[0].data == bytes((0xC2, 3))


def test_pauses_add_up_before_the_next_message() -> None:
    items = sending(
        "3: program 4", "wait 20 ms", "wait 30 ms", "3: control 52 = 9", "wait 9 ms"
    ).items
    assert [item.pause_us for item in items] == [0, 50_000]


def test_other_bytes_are_meant_for_nobody() -> None:
    (item,) = sending("bytes F0 7D 01 F7").items
    assert (item.data, item.unit, item.purpose) == (
        bytes((0xF0, 0x7D, 1, 0xF7)),
        None,
        Purpose.OTHER,
    )
