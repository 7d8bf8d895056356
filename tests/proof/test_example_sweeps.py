"""The example with a pedal whose place is not sent on recall."""

from tests.proof.boards import case_of
from thruline.proof.example_sweeps import swept


def test_the_pedal_does_not_send_its_place() -> None:
    rig = case_of(swept(64)).rig
    assert rig.unresolved == ()
    assert not rig.units["feet"].chart.pedals["exp-1"].on_recall


def test_the_sweep_runs_between_its_ends() -> None:
    (sweep,) = case_of(swept(64, heel=3, toe=90)).rig.sweeps
    assert (sweep.moves[0].heel.written, sweep.moves[0].toe.written) == ("3", "90")
