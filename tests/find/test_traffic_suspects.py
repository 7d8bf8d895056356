from tests.find.boards import box, field, meant, shown, suspect
from tests.rigs import make_cable, make_controller, make_rig, make_unit
from thruline.find.kinds import Kind
from thruline.find.meant import meant_by
from thruline.find.suspect import put_in
from thruline.find.traffic_suspects import traffic_suspects
from thruline.proof.case import Case


def _keys():
    """A bass synth that sends active sensing, into a unit that takes notes."""
    feet = make_controller(
        "braeburn",
        [{"id": "midi-out", "kind": "midi-out", "connector": "din5"}],
        send=[{"what": "active-sensing", "factory": "on"}],
        controller={"presets": 8, "sends": ["program", "control"]},
    )
    taking = box("worcester", receive={"note": True, "program": True, "control": True})
    return meant_by(Case(make_rig(
        [make_unit("feet", "braeburn"), make_unit("bass", "worcester", channel=3)],
        [make_cable("feet.midi-out", "bass.midi-in")],
        [feet, taking],
        preset=[{"number": 1, "name": "One", "bass": {"program": 4}}],
    )))  # fmt: skip


def test_where_active_sensing_comes_it_may_stop():
    found = {one.kind: one for one in traffic_suspects(_keys())}
    assert found[Kind.SENSING_STOPS].shows == {"hold bass": "cut"}
    assert found[Kind.NOTE_HANGS].shows == {"hold bass": "hangs"}
    assert found[Kind.LOCAL_OFF].shows == {"hold bass": "mute"}


def test_without_notes_and_sensing_there_is_nothing_to_hold():
    kinds = {one.kind for one in traffic_suspects(meant())}
    assert not kinds & {Kind.SENSING_STOPS, Kind.NOTE_HANGS, Kind.LOCAL_OFF}
    assert {Kind.CLOCK_UNSTEADY, Kind.SENDS_AT_POWER_UP, Kind.DUMPS_HELD_BACK} <= kinds


def test_a_box_that_holds_dumps_back_shows_behind_it_and_nowhere_else():
    held = suspect(Kind.DUMPS_HELD_BACK, "box-1")
    assert put_in(meant().rig, held.changes) != meant().rig
    shows = {one.id: shown(held, one.id) for one in field().checks}
    assert {"dump box-2": "nothing", "dump box-3": "nothing"}.items() <= shows.items()
    assert shows["look box-2 1"] == shown(None, "look box-2 1")


def test_a_cut_lead_lets_no_dump_through_either():
    assert shown(suspect(Kind.CABLE_OPEN, "box-1"), "dump box-2") == "nothing"
    assert shown(suspect(Kind.CABLE_OPEN, "feet"), "dump box-3") == "nothing"


def test_a_unit_that_waits_for_the_end_of_a_dump_reacts_by_hand():
    stuck, hangs = suspect(Kind.STUCK_IN_DUMP, "box-2"), suspect(Kind.FROZEN, "box-2")
    assert stuck.mend_key == hangs.mend_key
    assert shown(stuck, "hand box-2") == "good"
    assert shown(stuck, "release box-2") == "revives"
    assert shown(stuck, "look box-2 1") == shown(hangs, "look box-2 1") == "nothing"
