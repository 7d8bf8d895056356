"""What a controller's memory holds, as a sending."""

import pytest

from tests.opening import open_text
from tests.routed import SAME_CHANNEL, TO_ECHO
from thruline.compose.stored import stored_sending
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
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


def held(*messages, controller="gilliflower-two"):
    """The case of two delays on one channel, on an output each, and what its preset sends."""
    rows = ", ".join(f'"{one}"' for one in messages)
    stored = a_preset(1, "Overture", f"messages = [{rows}]", "delay = { mix = 40 }")
    pieces = (DELAY, SAME_CHANNEL, TO_DELAY, TO_ECHO, stored)
    case = Case(open_text(board(*pieces, controller=controller).rig).rig)
    return case, case.run(case.rig.presets[0])


@pytest.mark.parametrize("controller", ["gilliflower-two", "pearmain-ten"])
def test_what_is_stored_for_an_output_reaches_the_unit_behind_it(controller):
    messages = ("3: control 52 = 40 over midi-out-1", "3: control 52 = 90 over midi-out-2")
    case, run = held(*messages, controller=controller)
    assert not case.rig.unresolved
    assert [item.unit for item in run.sending.items] == ["delay", "echo"]
    assert (run.receptions["delay"].values, run.receptions["echo"].values) == (
        {"mix": 40}, {"mix": 90})  # fmt: skip


def test_on_a_channel_that_nobody_has_there_it_still_leaves_by_that_output():
    case, run = held("5: control 52 = 40 over midi-out-2")
    (item,) = run.sending.items
    assert case.board.routing.over[item.unit] == "midi-out-2"
    assert item.part is None


def test_an_output_that_cannot_be_chosen_is_told():
    case, _ = held("3: control 52 = 40 over midi-out-9")
    says = case.rig.unresolved[0].says
    assert says.endswith("the outputs of Gilliflower Two are midi-out-1, midi-out-2")
    case, _ = held("3: control 52 = 40 over midi-out-1", controller="braeburn-six")
    assert "everything is sent over all of them" in case.rig.unresolved[0].says
