"""Leftovers as they are told to people, from real messages."""

from tests.sameness.boards import BANKS, Looked, board, delay_chart, look, sweep
from tests.sameness.scenes import hand, scene, table
from thruline.sameness.codes import AS_POWERED, IN, KEEPS, OUT, OWN, UNTOLD
from thruline.sameness.columns import ColumnKind
from thruline.sameness.held import Cause, hold
from thruline.sameness.leftovers import Leftover, leftovers, unclear
from thruline.sameness.words import in_words, name_of


def told(found: Looked) -> dict[tuple[str, str], Leftover]:
    return {(one.column.unit, one.column.part): one for one in leftovers(hold(found.table))}


def numbers(presets: object) -> list[int]:
    return [preset.number for preset in presets]  # type: ignore[attr-defined]


def test_a_value_that_one_preset_sets_and_others_leave() -> None:
    found = look(board([["3: control 14 = 110"], ["3: control 14 = 64"], [], []]))
    one = told(found)["delay", "mix"]
    assert one.cause is Cause.PRESETS
    assert numbers(one.left_in) == [3, 4]
    assert [(sets.preset.number, sets.code) for sets in one.sent_by] == [(1, 110), (2, 64)]
    assert one.loaded_by == ()
    assert one.power_up == AS_POWERED
    unit = found.rig.units["delay"]
    example = one.example
    sentence = (
        f'"{name_of(one.column)}" of {unit.id} is left over in {len(one.left_in)} presets: '
        f"{example.first.preset.title} sets it to "  # type: ignore[union-attr]
        f"{in_words(example.first.code, one.column, unit)}, {example.entered.title} never sets it"
    )
    assert sentence == (
        '"Mix" of delay is left over in 2 presets: 2 "P2" sets it to 64, 3 "P3" never sets it'
    )


def test_nothing_is_told_of_a_clean_rig() -> None:
    assert (
        told(
            look(
                board([["3: program 1", "3: control 7 = 9"], ["3: program 2", "3: control 7 = 8"]])
            )
        )
        == {}
    )


def test_a_pedal_makes_a_leftover_of_its_own_kind() -> None:
    presets = [["3: control 7 = 100"], []]
    assert told(look(board(presets))) == {}
    one = told(look(board(presets, [sweep(("delay", "level", 0, 127), presets=[1])])))[
        "delay", "level"
    ]
    assert one.cause is Cause.PEDAL
    (moves,) = one.moved_by
    assert (moves.sweep.name, numbers(moves.presets), moves.low, moves.high) == (
        "Swell 1",
        [1],
        0,
        127,
    )


def test_a_program_is_left_over_and_carries_its_controls() -> None:
    presets = [["3: program 1", "3: control 14 = 64"], ["3: program 2"], []]
    found = told(look(board(presets)))
    program = found["delay", "program"]
    assert program.column.kind is ColumnKind.PROGRAM
    assert [sets.code for sets in program.sent_by] == [OWN + 1, OWN + 2]
    mix = found["delay", "mix"]
    assert [(sets.preset.number, sets.code) for sets in mix.loaded_by] == [(2, OWN + 2)]
    assert ("delay", "division") not in found


def test_a_relay_loop_is_left_over() -> None:
    one = told(look(board([{"drive": "in"}, {"drive": "out"}, {}])))["feet", "loop-1"]
    assert [sets.code for sets in one.sent_by] == [IN, OUT]
    assert numbers(one.left_in) == [3]


def test_a_bank_is_left_over_where_a_program_relies_on_it() -> None:
    whole = ["3: control 0 = 0", "3: control 32 = {bank}", "3: program 5"]
    presets = [[row.format(bank=bank) for row in whole] for bank in (1, 2)]
    found = told(look(board([*presets, ["3: program 5"], []], chart=delay_chart(programs=BANKS))))
    bank = found["delay", "lsb"]
    assert bank.column.kind is ColumnKind.BANK
    assert numbers(bank.left_in) == [3]
    assert numbers(found["delay", "program"].left_in) == [4]


def test_what_cannot_be_told() -> None:
    found = unclear(hold(look(board([["3: program 1"], ["3: control 16 = 3"], []])).table))
    (time,) = [one for one in found if one.column.part == "time"]
    assert numbers(time.presets) == [1]
    assert numbers(time.unsaid) == [1]
    assert not time.by_sweep


def test_what_a_silent_chart_may_leave() -> None:
    held = hold(table(scene((UNTOLD,), (KEEPS,), (5,), power_up=[5])))
    (one,) = unclear(held)
    assert (numbers(one.presets), numbers(one.unsaid)) == ([1, 2], [1])
    assert leftovers(held) == ()


def test_a_volume_pedal_is_not_told() -> None:
    swell = hand(0, [0, 127], 0, 1)
    assert leftovers(hold(table(scene((KEEPS,), (KEEPS,), hands=[swell])))) == ()
