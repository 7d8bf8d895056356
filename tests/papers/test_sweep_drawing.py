"""Sweeps on paper."""

from tests.monsters import monster
from tests.opening import open_text
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.papers.book import Drawing
from thruline.papers.sweep_drawing import LETTERS, mark_of, sweep_blocks
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_sweep, board
from thruline.rig.sweep import values_of


def test_every_sweep_has_curves_and_a_table_of_its_ends():
    rig = open_text(sample_text(ORCHARD_STREET)).rig
    blocks = list(sweep_blocks(rig))
    assert len(blocks) == 2 * len(rig.sweeps)
    for sweep, drawn, told in zip(rig.sweeps, blocks[::2], blocks[1::2], strict=True):
        assert isinstance(drawn, Drawing)
        assert drawn.svg.count("<polyline") == len(sweep.moves)
        for move, row in zip(sweep.moves, told.table.rows, strict=True):
            ends = values_of(move)
            assert row[3].split(":")[0] == str(ends[0])
            assert row[7].split(":")[0] == str(ends[-1])


def test_an_end_that_makes_no_sense_is_said_and_not_drawn():
    sweep = a_sweep("Odd", 'unit = "delay", control = "mix", heel = 0, toe = "much"')
    rig = open_text(board(DELAY, TO_DELAY, a_preset(1, "One", 'delay = "1A"'), sweep).rig).rig
    (told,) = sweep_blocks(rig)
    assert told.title == 'Sweep "Odd"'
    assert told.table.rows[0][7]


def test_letters_of_moves_are_all_different():
    marks = [mark_of(place) for place in range(100)]
    assert len(set(marks)) == 100
    assert marks[:2] == ["A", "B"]
    assert marks[len(LETTERS)] == "AA"


def test_many_moves_are_told_apart_by_their_dashes():
    rig = open_text(monster(presets=3, songs=1)).rig
    drawn = next(iter(sweep_blocks(rig)))
    assert drawn.svg.count("stroke-dasharray") == 12
