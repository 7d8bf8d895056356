"""What sweeps move, at which places, on which units."""

from tests.routed import case_of_two_lines
from tests.sameness.boards import Looked, board, delay_chart, look, sweep
from thruline.proof.example_boards import a_sweep
from thruline.sameness.codes import KEEPS, NOTHING, UNTOLD
from thruline.sameness.strokes import Stroke


def only(found: Looked) -> Stroke:
    (stroke,) = found.strokes.strokes
    return stroke


def test_stairs_are_those_of_the_move() -> None:
    found = look(board([[], []], [sweep(("delay", "mix", 10, 90))]))
    stroke = only(found)
    assert stroke.column == found.column("mix")
    assert stroke.rows.tolist() == [0, 1]
    assert (stroke.stairs[0], stroke.stairs[-1]) == (10, 90)
    assert stroke.values.tolist() == list(range(10, 91))
    assert stroke.counts.sum() == 128


def test_only_the_presets_that_it_is_on() -> None:
    found = look(board([[], [], []], [sweep(("delay", "mix", 0, 127), presets=[2])]))
    assert only(found).rows.tolist() == [1]


def test_on_no_preset_it_moves_nothing() -> None:
    found = look(board([], [sweep(("delay", "mix", 0, 127))]))
    assert found.strokes.strokes == ()


def test_both_halves_of_a_pair_arrive() -> None:
    found = look(board([[]], [sweep(("delay", "time", 0, 16383))]))
    assert (only(found).stairs[0], only(found).stairs[-1]) == (0, 16383)


def test_between_zones_nothing_is_obeyed() -> None:
    stroke = only(look(board([[]], [sweep(("delay", "division", 0, 127))])))
    assert set(stroke.stairs.tolist()) == {20, NOTHING, 104}
    assert stroke.stairs[60] == NOTHING


def test_a_neighbour_that_hears_it_is_moved_too() -> None:
    omni = delay_chart(channel={"factory": 1, "omni": "always"})
    found = look(board([[]], [sweep(("delay", "mix", 0, 127))], chart=omni))
    assert [stroke.column for stroke in found.strokes.strokes] == [
        found.column("mix"),
        found.column("mix", "reverb"),
    ]


def test_a_unit_that_is_not_reached_is_not_moved() -> None:
    off = delay_chart()
    off["output"] = [{"socket": "midi-out", "ways": ["off"]}]
    found = look(board([[]], [sweep(("reverb", "mix", 0, 127))], chart=off))
    assert found.strokes.strokes == ()


def test_a_unit_that_may_not_take_control_changes_is_in_doubt() -> None:
    silent = delay_chart(receive={"program": True})
    found = look(
        board(
            [["3: program 1"], []], [sweep(("delay", "mix", 0, 127))], chart=silent, on_recall=True
        )
    )
    stroke = only(found)
    assert stroke.untold
    assert stroke.values.size == 0
    assert found.effects("mix") == [UNTOLD, UNTOLD]


def test_a_place_that_is_sent_on_recall_leaves_nothing_of_the_preset() -> None:
    moves = sweep(("delay", "mix", 0, 127))
    sent = look(board([["3: control 14 = 64"], []], [moves], on_recall=True))
    assert sent.asks("mix") == [False, False]
    unsent = look(board([["3: control 14 = 64"], []], [moves]))
    assert unsent.asks("mix") == [False, True]
    assert unsent.effects("mix") == [64, KEEPS]


def test_a_sweep_of_a_switch_that_any_value_flips() -> None:
    found = look(board([[]], [sweep(("delay", "record", 0, 127))]))
    assert found.strokes.strokes == ()
    (flipped,) = found.strokes.flips
    assert (flipped.unit, flipped.control.id, flipped.untold) == ("delay", "record", False)


def test_a_move_leaves_by_the_output_of_the_unit_that_it_is_meant_for() -> None:
    swell = a_sweep("Swell", 'unit = "echo", control = "mix", heel = 0, toe = 127')
    for controller, moved in (("pearmain-ten", {"echo"}), ("braeburn-six", {"delay", "echo"})):
        case = case_of_two_lines(swell, controller=controller)
        columns = {one.column for one in case.strokes.strokes}
        assert {case.layout.columns[column].unit for column in columns} == moved
