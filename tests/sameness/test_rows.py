"""Rows of the table from the messages that units really get."""

import pytest

from tests.sameness.boards import BANKS, board, delay_chart, look
from thruline.rig.programs import WireProgram
from thruline.sameness.codes import IN, KEEPS, OUT, UNTOLD, own_code
from thruline.sameness.columns import ColumnKind

FIVE = own_code(WireProgram(0, 5))


def test_what_is_sent_is_set_and_the_rest_is_kept() -> None:
    found = look(board([["3: control 14 = 64"], []]))
    assert found.effects("mix") == [64, KEEPS]
    assert found.asks("mix") == [False, True]
    assert found.effects("mix", "reverb") == [KEEPS, KEEPS]


def test_the_last_message_counts() -> None:
    found = look(board([["3: control 14 = 64", "3: control 14 = 65"]]))
    assert found.effects("mix") == [65]


def test_a_program_brings_what_it_stores() -> None:
    found = look(board([["3: program 5"]]))
    assert found.effects("program", kind=ColumnKind.PROGRAM) == [FIVE]
    assert found.effects("mix") == [FIVE]
    assert found.effects("level") == [KEEPS]
    assert found.effects("time") == [UNTOLD]
    assert found.effects("mix", "reverb") == [KEEPS]


def test_a_control_after_the_program_wins() -> None:
    found = look(board([["3: program 5", "3: control 14 = 64"]]))
    assert found.effects("mix") == [64]


def test_a_control_before_the_program_stays_only_where_no_program_touches_it() -> None:
    messages = ["3: control 14 = 64", "3: control 7 = 30", "3: control 16 = 1", "3: program 5"]
    found = look(board([messages]))
    assert found.effects("mix") == [FIVE]
    assert found.effects("level") == [30]
    assert found.effects("time") == [UNTOLD]


def test_a_control_that_comes_too_early_is_not_set() -> None:
    deaf = delay_chart(settle={"ms": 100, "controls": "lost"})
    found = look(board([["3: program 5", "3: control 14 = 64"]], chart=deaf))
    assert found.effects("mix") == [FIVE]


def test_where_the_chart_is_silent_nothing_can_be_told() -> None:
    silent = delay_chart(settle={"ms": 100})
    found = look(board([["3: program 5", "3: control 14 = 64"]], chart=silent))
    assert found.effects("mix") == [UNTOLD]
    assert found.effects("division") == [FIVE]


def test_a_unit_of_which_nothing_is_known_leaves_all_in_doubt() -> None:
    silent = delay_chart(receive={"control": True})
    found = look(board([["3: program 5", "3: control 14 = 64"], []], chart=silent))
    assert found.effects("mix") == [UNTOLD, KEEPS]
    assert found.effects("program", kind=ColumnKind.PROGRAM) == [UNTOLD, KEEPS]


@pytest.mark.parametrize(("sent", "code"), [(0, 0), (63, 0), (64, 127), (127, 127)])
def test_a_switch_knows_two_values(sent: int, code: int) -> None:
    assert look(board([[f"3: control 19 = {sent}"]])).effects("trails") == [code]


@pytest.mark.parametrize(("sent", "code"), [(0, 20), (40, 20), (60, KEEPS), (127, 104)])
def test_a_control_with_zones_knows_its_zones(sent: int, code: int) -> None:
    assert look(board([[f"3: control 18 = {sent}"]])).effects("division") == [code]


def test_neighbours_on_one_channel_both_obey() -> None:
    rig = board([["3: control 14 = 64"]])
    assert look(rig).effects("mix", "reverb") == [KEEPS]
    omni = delay_chart(channel={"factory": 1, "omni": "always"})
    assert look(board([["3: control 14 = 64"]], chart=omni)).effects("mix", "reverb") == [64]


def test_relay_loops() -> None:
    found = look(board([{"drive": "in"}, {"drive": "out"}, {}]))
    assert found.effects("loop-1", "feet", kind=ColumnKind.LOOP) == [IN, OUT, KEEPS]


def test_bank_registers_are_left_and_relied_on() -> None:
    whole = ["3: control 0 = 0", "3: control 32 = 2", "3: program 5"]
    half = ["3: control 32 = 1", "3: program 5"]
    found = look(board([whole, half, ["3: program 5"], []], chart=delay_chart(programs=BANKS)))
    bank = ColumnKind.BANK
    assert found.effects("msb", kind=bank) == [0, KEEPS, KEEPS, KEEPS]
    assert found.effects("lsb", kind=bank) == [2, 1, KEEPS, KEEPS]
    assert found.asks("msb", kind=bank) == [False, True, True, False]
    assert found.asks("lsb", kind=bank) == [False, False, True, False]


def test_a_bank_that_is_cleared_is_known() -> None:
    cleared = delay_chart(programs={**BANKS, "bank-after": "clears"})
    found = look(board([["3: program 5"]], chart=cleared))
    assert found.effects("lsb", kind=ColumnKind.BANK) == [0]
    assert found.asks("lsb", kind=ColumnKind.BANK) == [True]
