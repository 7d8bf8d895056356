from dataclasses import replace

import pytest

from tests.learn.boards import DAMAGED, heard, meant, sent_by
from thruline.audit.capture import Came, Capture, Note, NoteKind
from thruline.learn.learned import learn
from thruline.rig.sweep import values_of


def found_moves(found):
    return {(one.moved.channel, one.moved.code): one for each in found.sweeps for one in each.moves}


def test_a_clean_line_is_learned_as_it_is():
    found = learn([heard(2)])
    assert [one.number for one in found.presets] == list(range(1, 25))
    for preset in found.presets:
        assert [one.data for one in preset.agreed] == sent_by(preset.number)
    assert found.account.share == 1
    assert found.own_us == 150
    assert not found.running_status


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_three_presses_make_up_for_damaged_bytes(seed):
    found = learn([heard(3, DAMAGED, seed)])
    right = sum(
        len(set(sent_by(one.number)) & {each.data for each in one.agreed}) for one in found.presets
    )
    wanted = sum(len(set(sent_by(number))) for number in range(1, 25))
    assert right / wanted >= 0.98
    assert found.account.malformed > 0


def test_sweeps_have_their_ends_curves_and_presets():
    found = learn([heard(3, DAMAGED)])
    rig = meant().case.rig
    moves = found_moves(found)
    for sweep in rig.sweeps:
        learned = next(one for one in found.sweeps if one.name == sweep.name)
        assert learned.presets == sweep.presets
        assert learned.by_recall
        for move in sweep.moves:
            key = ((rig.units[move.unit].sent_on or 1) - 1, move.control.number)
            values = values_of(move)
            assert (moves[key].heel, moves[key].toe) == (values[0], values[-1])
            assert moves[key].fitted.curve.name == move.curve.name


def test_without_a_word_from_anybody():
    capture = heard(3)
    bare = replace(capture, entries=tuple(one for one in capture.entries if isinstance(one, Came)))
    found = learn([bare])
    sets = {tuple(sorted(each.data for each in one.agreed)) for one in found.presets}
    really = {tuple(sorted(sent_by(number))) for number in range(1, 25)}
    assert sets == really, "presets that send the same cannot be told apart"
    assert not any(one.is_numbered for one in found.presets)
    assert len(found.sweeps) == 3


def test_a_preset_that_sets_what_a_pedal_moves_keeps_it():
    found = learn([heard(2)])
    second = next(one for one in found.presets if one.number == 2)
    assert b"\xb2\x34\x20" in [one.data for one in second.agreed]


def test_clock_and_strays_are_no_part_of_anything():
    clock = [Came(at, 1, b"\xf8") for at in range(0, 2_000_000, 20_833)]
    press = [Note(0, 0, NoteKind.PRESS, "5 Dawn"), Came(700, 1, b"\xc3\x07")]
    entries = sorted([*press, *clock], key=lambda one: one.at_us)
    found = learn([Capture(lines=("a",), entries=tuple(entries))])
    assert (found.presets[0].number, found.presets[0].name) == (5, "Dawn")
    assert [one.data for one in found.presets[0].agreed] == [b"\xc3\x07"]
    assert found.clock_bpm == 120


def test_nothing_is_learned_of_nothing():
    found = learn([Capture(lines=("a",), entries=())])
    assert (found.presets, found.sweeps, found.account.share) == ((), (), 1.0)
    assert learn([]).clock_bpm is None
