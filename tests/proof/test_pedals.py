"""What is plugged into which expression input."""

from tests.proof.boards import case_of
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_sweep, a_unit, board
from thruline.proof.pedals import input_of, inputs_in_use, pedal_at, wiring_read
from thruline.rig.cable import Jack

RIG = board(
    DELAY,
    TO_DELAY,
    a_unit("treadle", "ribston-treadle"),
    a_cable("treadle.output", "feet.exp-1", ends="trs-6.35/trs-6.35"),
    a_sweep("Swell", 'unit = "delay", control = "mix", heel = 0, toe = 100'),
    a_sweep("Odd", 'unit = "delay", control = "mix", heel = 0, toe = 100', pedal="feet.usb"),
)


def test_the_input_of_a_sweep() -> None:
    rig = case_of(RIG).rig
    found = [input_of(rig, sweep) for sweep in rig.sweeps]
    assert [one.socket if one else None for one in found] == ["exp-1", None]


def test_the_pedal_in_an_input() -> None:
    rig = case_of(RIG).rig
    pedal = pedal_at(rig, Jack("feet", "exp-1"))
    assert pedal is not None
    assert pedal.id == "treadle"
    assert pedal_at(rig, Jack("feet", "exp-2")) is None
    assert [(unit.id, one.socket, p.id) for unit, one, p in inputs_in_use(rig)] == [
        ("feet", "exp-1", "treadle")
    ]


def test_the_wiring_an_input_reads_follows_its_setting() -> None:
    rig = case_of(RIG).rig
    feet = rig.units["feet"]
    assert wiring_read(feet, feet.chart.pedals["exp-1"]) == "wiper-on-tip"
    text = RIG.rig.replace(
        'chart = "braeburn-six"', 'chart = "braeburn-six"\nsettings = { exp-1-wiring = "Ring" }'
    )
    ring = case_of(type(RIG)(text)).rig.units["feet"]
    assert wiring_read(ring, ring.chart.pedals["exp-1"]) == "wiper-on-ring"
