"""Plans as a page shows them, and applied as they were shown."""

import pytest

from tests.app.keeping import BOARD, keeping
from tests.opening import open_text
from thruline.app.desk import edited, open_desk, undone
from thruline.app.edit_words import read_edits
from thruline.app.plan_view import PLANS, applied, plan_json
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.base.errors import CannotUse
from thruline.outside.samples import AS_FOUND, sample_text
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_power_lead, a_unit, board

TWO = board(
    DELAY,
    TO_DELAY,
    a_unit("next", "bramley-delay", "channel = 3"),
    a_cable("delay.midi-thru", "next.midi-in"),
)
WEAK = board(
    a_unit("supply", "elstar-supply"),
    DELAY,
    a_power_lead("supply.outlet-9", "delay.power-in"),
)


def shown(text, plan, **wishes):
    return plan_json(open_text(text), {"plan": plan, **wishes})


def test_an_edit_is_shown_with_where_what_and_why():
    opened = open_text(TWO.rig)
    told = plan_json(opened, {"plan": "channels"})
    (change,) = told["changes"]
    row = opened.document.text.splitlines()[change["row"] - 1]
    assert (change["was"], row) == ("3", "channel = 3")
    assert change["becomes"] != "3"
    assert "order of the units" in change["why"]
    assert told["proved"] is True
    assert "no plan costs less" in told["verdict"]
    assert any("channel" in one for one in told["gone"])
    assert told["new"] == []


def test_a_plan_of_power_says_why_and_warns():
    told = shown(WEAK.rig, "power")
    change = next(one for one in told["changes"] if one["address"].endswith(".from"))
    assert change["was"] == '"supply.outlet-9"'
    assert "does not suit it" in change["why"]
    assert any("Never open a mains supply" in one for one in told["cautions"])
    titles = [one["title"] for one in told["sections"]]
    assert titles == ["An outlet for each unit", "What it costs"]
    added = next(one for one in told["changes"] if one["do"] == "add")
    assert (added["was"], added["row"], added["why"]) == ("nothing", None, "had no lead")


def test_what_is_to_be_bought_is_a_section():
    told = shown(board(a_unit("supply", "idared-supply"), DELAY).rig, "power")
    assert told["whole"] is False
    assert "To buy" in [one["title"] for one in told["sections"]]


def test_the_smallest_clash_is_named_and_nothing_is_to_be_applied():
    told = shown(TWO.rig, "channels", set="delay=3, next=3")
    assert told["clash"] == ["Bramley Delay (delay)", "Bramley Delay (next)"]
    assert (told["whole"], told["proved"], told["edits"]) == (False, None, [])


def test_cables_follow_the_wishes():
    text = sample_text(AS_FOUND)
    few, all_anew = (shown(text, "cables", remake=word) for word in ("", "yes"))
    assert len(few["changes"]) < len(all_anew["changes"])
    assert all(one["why"] for one in few["changes"])
    assert "fewer" in few["verdict"]
    assert shown(text, "cables", sold="yes")["proved"] is None


@pytest.mark.parametrize(
    ("plan", "wishes"),
    [
        ("lights", {}),
        ("channels", {"set": "delay"}),
        ("channels", {"set": "nobody=3"}),
        ("cables", {"slack": "101"}),
        ("cables", {"slack": "-1"}),
        ("cables", {"spool": "0"}),
        ("cables", {"spool": "9" * 5000}),
    ],
)
def test_wishes_that_make_no_sense_are_refused(plan, wishes):
    with pytest.raises(CannotUse):
        shown(BOARD, plan, **wishes)


@pytest.mark.parametrize("plan", PLANS)
def test_what_was_shown_is_what_is_applied_and_undone(plan):
    kept = keeping(sample_text(AS_FOUND))
    desk = open_desk(kept)
    told = plan_json(desk.state.opened, {"plan": plan})
    after = applied(desk, kept, plan, edits=read_edits(told["edits"]), seen=desk.history.now)
    assert plan_json(after.state.opened, {"plan": plan})["edits"] == []
    assert kept.revisions.known[after.history.now].says.startswith(f"Plan of {plan}: ")
    for row in (one[1:] for one in told["diff"] if one.startswith("+")):
        assert row in after.text.splitlines()
    assert undone(after, kept).text == desk.text


def test_a_plan_for_another_revision_is_refused():
    kept = keeping(TWO.rig)
    desk = open_desk(kept)
    told = plan_json(desk.state.opened, {"plan": "channels"})
    edits, seen = read_edits(told["edits"]), desk.history.now
    other = edited(desk, [set_to(read_address("rig.about"), "seen")], kept, says="About")
    with pytest.raises(CannotUse, match="have it worked out again"):
        applied(other, kept, "channels", edits=edits, seen=seen)
    assert kept.file.content.decode() == other.text


def test_a_file_that_was_changed_outside_is_noticed_before_a_plan_is_applied():
    kept = keeping(TWO.rig)
    desk = open_desk(kept)
    told = plan_json(desk.state.opened, {"plan": "channels"})
    kept.file.content = kept.file.content + b"\n# by hand\n"
    with pytest.raises(CannotUse, match="have it worked out again"):
        applied(desk, kept, "channels", edits=read_edits(told["edits"]), seen=desk.history.now)
    assert kept.file.content.endswith(b"# by hand\n")
