from tests.audit.boards import board
from tests.rigs import make_rig, make_unit
from thruline.app.bench_view import bench_view
from thruline.proof.case import Case


def test_what_can_be_sent_and_where_one_can_listen():
    case = Case(board())
    found = bench_view(case)
    assert [one["number"] for one in found["presets"]] == [one.number for one in case.rig.presets]
    assert found["usual"] in found["sockets"]
    assert found["sweeps"][0]["moves"]
    assert not found["lacks"]


def test_a_rig_without_a_controller_says_what_is_missing():
    found = bench_view(
        Case(make_rig([make_unit("a", "bramley")], rig={"name": "none", "controller": "nobody"}))
    )
    assert "no foot controller" in found["lacks"]
    assert (found["presets"], found["usual"]) == ([], "")
