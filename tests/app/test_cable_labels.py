"""What stands on the labels of a rig's cables."""

from tests.app.test_plan_cables import PLACED, planned
from thruline.app.cable_labels import cable_labels


def test_each_cable_has_two_labels_that_point_at_each_other():
    labels = cable_labels(planned(*PLACED)).labels
    assert len(labels) == 4
    assert (labels[0].here, labels[0].there) == (labels[1].there, labels[1].here)
    assert labels[0].number == labels[1].number == "M1"
    assert labels[0].code.startswith("M1 feet.midi-out-1 < delay.midi-in")
