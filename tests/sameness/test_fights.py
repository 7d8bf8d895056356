from tests.sameness.scenes import hand, scene, table
from thruline.sameness.codes import KEEPS, OWN
from thruline.sameness.fights import sweeps_and_presets, two_sweeps


def test_two_pedals_on_one_control() -> None:
    one, other = hand(0, [0, 127], 0, 1), hand(0, [20, 60], 1, 2, pedal=2)
    (found,) = two_sweeps(table(scene((KEEPS,), (KEEPS,), (KEEPS,), hands=[one, other])))
    assert [preset.number for preset in found.presets] == [2]
    assert not found.same_pedal
    assert (found.apart, found.steps) == ((127, 20), 107)
    assert found.places == (64, 0)
    assert not found.is_harmless


def test_one_pedal_twice_is_compared_place_by_place() -> None:
    one, other = hand(0, [0, 60, 127], 0), hand(0, [0, 90, 127], 0)
    made = table(scene((KEEPS,), hands=[one, other]))
    (found,) = two_sweeps(made)
    assert found.same_pedal
    assert found.moves == tuple(stroke.move for stroke in made.strokes.strokes)
    assert found.places == (43, 43)
    assert (found.apart, found.steps) == ((60, 90), 30)


def test_the_same_twice_is_harmless() -> None:
    (found,) = two_sweeps(table(scene((KEEPS,), hands=[hand(0, [0, 127], 0)] * 2)))
    assert found.is_harmless


def test_sweeps_that_do_not_meet() -> None:
    columns = [hand(0, [0, 127], 0), hand(1, [0, 127], 0)]
    presets = [hand(0, [0, 127], 0), hand(0, [0, 127], 1)]
    for hands in (columns, presets):
        assert two_sweeps(table(scene((KEEPS, KEEPS), (KEEPS, KEEPS), hands=hands))) == ()


def test_a_preset_may_say_where_a_sweep_starts() -> None:
    one = scene((0,), (127,), (64,), (KEEPS,), (OWN + 1,), hands=[hand(0, [0, 127], 0, 1, 2, 3, 4)])
    (found,) = sweeps_and_presets(table(one))
    assert [(sets.preset.number, sets.code) for sets in found.at_an_end] == [(1, 0), (2, 127)]
    assert [(sets.preset.number, sets.code) for sets in found.elsewhere] == [(3, 64)]
    assert found.ends == (0, 127)
    assert not found.is_harmless


def test_any_value_is_harmless_when_the_place_is_sent_on_recall() -> None:
    (found,) = sweeps_and_presets(table(scene((64,), hands=[hand(0, [0, 127], 0, on_recall=True)])))
    assert found.is_harmless
    assert len(found.at_an_end) == 1


def test_presets_that_the_sweep_is_not_on_do_not_fight() -> None:
    assert sweeps_and_presets(table(scene((64,), (KEEPS,), hands=[hand(0, [0, 127], 1)]))) == ()
