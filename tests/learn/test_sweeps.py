from thruline.learn.sweeps import Seen, sweeps_of
from thruline.learn.travels import Moved, Point

LEVEL, MIX = Moved(2, 7), Moved(3, 20)


def points(first, last):
    step = 1 if last > first else -1
    return tuple(
        Point(at * 1000, value) for at, value in enumerate(range(first, last + step, step))
    )


def seen(serial, *, name=None, preset=None, **tracks):
    moved = {"level": LEVEL, "mix": MIX}
    return Seen(
        serial=serial,
        name=name,
        preset=preset,
        tracks={moved[one]: track for one, track in tracks.items()},
    )


def test_what_moves_together_is_one_sweep_and_most_passes_say_its_ends():
    passes = [
        seen(1, preset=4, level=points(0, 127), mix=points(100, 20)),
        seen(2, preset=5, level=points(3, 127), mix=points(100, 20)),
        seen(3, preset=5, level=points(0, 127), mix=points(99, 20)),
    ]
    (found,) = sweeps_of(passes, {})
    ends = {one.moved: (one.heel, one.toe) for one in found.moves}
    assert ends == {LEVEL: (0, 127), MIX: (100, 20)}
    assert found.presets == (4, 5)
    assert not found.by_recall
    assert found.travels == 3


def test_a_recall_shows_where_a_sweep_works():
    recalled = {LEVEL: frozenset({1, 2}), MIX: frozenset({1, 2, 3})}
    (found,) = sweeps_of([seen(1, preset=9, level=points(0, 90), mix=points(0, 50))], recalled)
    assert found.presets == (1, 2), "at preset 3 one of the two came, which is the preset's own"
    assert found.by_recall


def test_names_keep_sweeps_apart_that_move_the_same():
    passes = [seen(1, name="Swell", level=points(0, 90)), seen(2, name="Fade", level=points(90, 0))]
    found = sweeps_of(passes, {})
    assert [(one.name, one.moves[0].heel) for one in found] == [("Swell", 0), ("Fade", 90)]
    (unnamed,) = sweeps_of([seen(1, level=points(0, 90)), seen(2, level=points(0, 90))], {})
    assert (unnamed.name, unnamed.is_named) == ("Pedal 1", False)
