import pytest

from tests.app.keeping import BOARD
from tests.opening import open_text
from tests.routed import two_lines
from thruline.app.mend import after_edits, state_of
from thruline.app.unit_view import added_cable, added_unit, units_json
from thruline.base.errors import CannotUse


@pytest.fixture
def state():
    return state_of(open_text(BOARD))


def shelves(state):
    return state.opened.shelves


def test_settings_say_where_they_are_found_and_what_is_from_the_factory(state):
    told = units_json(state, shelves(state))
    feet, delay = told["units"]
    assert feet["is_controller"]
    assert delay["channel"] == 3
    assert 3 in delay["channels"]
    for one in delay["settings"]:
        assert one["value"] in one["values"]
        assert one["where"]
        assert not one["stated"]
    assert told["cables"][0]["address"] == "cable[feet.midi-out-1>delay.midi-in]"
    assert {one["name"] for one in told["outputs"]} >= {"feet.midi-out-1"}
    assert not {one["name"] for one in told["inputs"]} & {"feet.midi-out-1"}


def test_a_unit_gets_an_id_that_is_free(state):
    for wanted in ("reverb", "reverb-2", "reverb-3"):
        edit = added_unit(state, "pippin-reverb", shelves=shelves(state))
        assert edit.value == {"id": wanted, "chart": "pippin-reverb"}
        state = after_edits(state, [edit])


def test_a_chart_that_is_not_there_is_told_with_the_nearest(state):
    with pytest.raises(CannotUse, match='did you mean "pippin-reverb"'):
        added_unit(state, "pipin-reverb", shelves=shelves(state))


def test_a_cable_gets_the_plugs_of_its_sockets(state):
    state = after_edits(state, [added_unit(state, "jonagold-looper", shelves=shelves(state))])
    edit = added_cable(state, "feet.midi-out-2", "looper.midi-in")
    assert edit.value["ends"] == "din5/din5"
    assert after_edits(state, [edit]).opened.rig.cables[-1].name == "feet.midi-out-2>looper.midi-in"
    for name in ("nobody.midi-in", "looper.nothing", "looper"):
        with pytest.raises(CannotUse, match="no socket"):
            added_cable(state, "feet.midi-out-2", name)


def test_a_cable_no_usual_lead_can_be_is_wired_as_its_sockets_need_it(state):
    state = after_edits(state, [added_unit(state, "mutsu-tremolo", shelves=shelves(state))])
    edit = added_cable(state, "feet.midi-out-2", "tremolo.midi-in")
    assert edit.value["wiring"] == {"4": "tip", "5": "sleeve"}
    after = after_edits(state, [edit])
    assert [link.carries for link in after.case.network.links if "tremolo" in str(link.stop)] == [
        True
    ]


def test_where_the_controller_chooses_a_unit_says_over_which_output_it_is_sent_to():
    state = state_of(two_lines())
    told = {one["id"]: one for one in units_json(state, shelves(state))["units"]}
    assert told["echo"]["goes_over"] == "midi-out-2"
    assert told["echo"]["sent_over"] is None
    assert told["echo"]["sent_over_outputs"] == ["midi-out-1", "midi-out-2"]
    assert told["feet"]["sent_over_outputs"] == []
    alike = state_of(two_lines(controller="braeburn-six"))
    assert not any(one["sent_over_outputs"] for one in units_json(alike, shelves(alike))["units"])
