from tests.find.boards import meant
from tests.samples.reading import ORCHARD
from thruline.find.kinds import Kind
from thruline.find.meant import meant_by
from thruline.find.pedal_suspects import loop_suspects, loops_in_use, pedal_suspects, readings
from thruline.proof.case import Case
from thruline.rig.chart import Expression
from thruline.wiring import open_file


def test_a_pedal_can_fail_in_eight_ways_and_each_shows():
    found = tuple(pedal_suspects(meant()))
    assert len({one.kind for one in found}) == 8
    assert all(one.shows["pedal feet.exp-1"] != "right" for one in found)


def test_three_readings_of_a_pedal():
    linear = Expression(
        wiring="wiper-on-tip", ohms=None, taper="linear", lowest=0, highest=127, flicker=0
    )
    assert readings(linear) == (0, 64, 127)


def test_loops_on_the_audio_path():
    rig = open_file(ORCHARD).rig
    assert tuple(loops_in_use(meant().rig)) == ()
    loops = list(loops_in_use(rig))
    found = tuple(loop_suspects(meant_by(Case(rig))))
    assert len(found) == 5 * len(loops) > 0
    assert {one.kind for one in found} == {
        Kind.LOOP_CONTACT, Kind.LOOP_SWAPPED, Kind.LOOP_LEAD_OPEN, Kind.LOOP_THUMPS,
        Kind.LOOP_TOO_EARLY,
    }  # fmt: skip
