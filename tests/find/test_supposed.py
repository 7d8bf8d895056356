"""What a search supposes where charts are silent."""

from tests.find.boards import box
from tests.rigs import make_cable, make_controller, make_rig, make_unit
from thruline.find.field import field_of
from thruline.find.search import Did, Search, Step
from thruline.find.standing import stand
from thruline.find.supposed import supposed
from thruline.proof.case import Case
from thruline.rig.socket import Wiring
from thruline.rig.whole import Rig


def one_box(**jack: str) -> Rig:
    """A controller and a box with such a MIDI input."""
    chart = box("box")
    chart["socket"][0] |= {"connector": "trs-3.5", **jack}
    lead = make_cable("feet.midi-out", "box.midi-in", ends="din5/trs-3.5", wiring="type-a")
    preset = {"number": 1, "name": "Cue", "box": {"program": "3"}}
    return make_rig(
        [make_unit("feet", "feet"), make_unit("box", "box", channel=2)],
        [lead],
        [make_controller("feet"), chart],
        preset=[preset],
    )


def test_a_jack_of_which_nothing_is_told_is_taken_as_type_a() -> None:
    sockets = supposed(one_box()).units["box"].chart.sockets
    assert sockets["midi-in"].wiring is Wiring.TYPE_A


def test_what_a_chart_tells_stays() -> None:
    rig = one_box(wiring="type-b")
    assert supposed(rig) == rig
    assert supposed(rig).units["box"] is rig.units["box"]
    assert supposed(rig).controller is rig.controller


def test_such_a_board_can_be_searched() -> None:
    """That its unit does as it should speaks for the board."""
    field = field_of(Case(one_box()))
    before = stand(field, Search()).belief.nothing
    seen = Step(did=Did.ANSWERED, on="look box 1", answer="right")
    assert stand(field, Search(steps=(seen,))).belief.nothing > 2 * before
