"""A channel plan of a rig as an edit of its document."""

from tests.opening import open_text
from tests.routed import two_lines
from thruline.app.plan_channels import (
    MOVE_ONE,
    channel_json,
    channel_sections,
    plan_rig_channels,
)
from thruline.outside.samples import sample_text
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_unit, board
from thruline.rig.unit import is_omni

TO_NEXT = a_cable("delay.midi-thru", "next.midi-in")


def planned(*pieces, **pinned):
    return plan_rig_channels(open_text(board(*pieces).rig), pinned)


def test_two_on_a_channel_are_parted():
    found = planned(DELAY, TO_DELAY, a_unit("next", "bramley-delay", "channel = 3"), TO_NEXT)
    assert "set to another channel; proved: no plan costs less" in found.says
    after = found.tried.after.opened.rig.units
    assert {after["delay"].channel, after["next"].channel} > {3}
    assert "understanding.two-units-on-a-channel" in {one.rule for one in found.tried.effect.gone}
    assert found.plan.cost == sum(count * each for _, count, each in found.parts)


def test_omni_is_turned_off_in_the_document():
    lights = a_unit("next", "discovery-lights", "channel = 16", 'settings = { omni = "All" }')
    found = planned(DELAY, TO_DELAY, lights, TO_NEXT)
    assert is_omni(found.tried.before.opened.rig.units["next"]) is True
    assert is_omni(found.tried.after.opened.rig.units["next"]) is False


def test_the_controller_follows_the_unit():
    found = planned(a_unit("delay", "bramley-delay", "channel = 3", "sent-on = 4"), TO_DELAY)
    assert "sent-on" not in found.tried.after.opened.document.text
    assert found.tried.after.opened.rig.units["delay"].sent_on == 3


def test_a_clash_is_told_and_nothing_is_changed():
    found = planned(DELAY, a_unit("next", "bramley-delay"), delay=3, next=3)
    assert found.says == (
        "there is no channel plan: Bramley Delay (delay) and Bramley Delay (next) need 2 channels, "
        "and all they can be set to is channel 3 (no smaller set clashes)"
    )
    assert found.tried.edits == ()
    assert channel_json(found)["clash"] == ["delay", "next"]
    assert [*channel_sections(found)] == []


def test_a_board_without_listeners():
    assert planned().says == "no unit of this rig listens to a channel"


def test_the_sections_say_every_unit_and_the_sum():
    found = planned(DELAY, a_unit("next", "bramley-delay", "channel = 3"))
    units, cost = channel_sections(found)
    assert len(units.table.rows) == 2
    assert cost.table.rows[-1] == ("in all", "", "", str(found.plan.cost))
    assert cost.notes[0].startswith("Proved: ")
    assert channel_json(found)["proved"] is True


def test_two_on_a_channel_over_two_outputs_stay_as_they_are():
    assert not [one for one in plan_rig_channels(two_lines(), {}).choices if one.changes]
    alike = plan_rig_channels(two_lines(controller="braeburn-six"), {})
    assert [one for one in alike.choices if one.changes]


def three_outputs(**delays):
    """Two delays behind merges of two outputs each, the middle one heard by both."""
    chart = sample_text("charts/pearmain-ten.chart.toml").replace("pearmain-ten", "pearmain-twelve")
    for table in ('[[socket]]\nid = "midi-out-2"', '[[output]]\nsocket = "midi-out-2"'):
        rest = chart[chart.index(table) :]
        more = rest[: rest.index("\n\n") + 2]
        third = more.replace("midi-out-2", "midi-out-3").replace("LINE B", "LINE C")
        chart = chart.replace(more, more + third.replace("along = 120", "along = 150"))
    pieces = [a_unit("split", "cox-split"), a_cable("feet.midi-out-2", "split.midi-in")]
    for number, (name, rows) in enumerate(delays.items(), 1):
        pieces += [
            a_unit(f"merge-{number}", "kidd-merge"),
            a_unit(name, "bramley-delay", *rows),
            a_cable(f"feet.midi-out-{2 * number - 1}", f"merge-{number}.in-1"),
            a_cable(f"split.out-{number}", f"merge-{number}.in-2"),
            a_cable(f"merge-{number}.output", f"{name}.midi-in"),
        ]
    rig = board(*pieces, controller="pearmain-twelve").rig
    return plan_rig_channels(open_text(rig, chart), {"left": 3, "right": 3})


def test_units_are_sent_over_outputs_where_nobody_else_hears_them():
    over = 'sent-over = "midi-out-2"'
    found = three_outputs(left=("channel = 3", over), right=("channel = 3", over))
    assert found.says == "2 units are sent over another output; proved: no plan costs less"
    after = found.tried.after.opened.rig.units
    assert (after["left"].sent_over, after["right"].sent_over) == ("midi-out-1", "midi-out-3")
    assert {one.says for one in found.choices} == {
        "keeps channel 3: over this output nobody else hears it there"
    }
    assert found.plan.cost == sum(count * each for _, count, each in found.parts)
    section = next(channel_sections(found))
    assert [row[3] for row in section.table.rows] == ["LINE A", "LINE C"]
    assert any("Every cable stays" in note for note in section.notes)
    assert [one["moves_over"] for one in channel_json(found)["units"]] == [True, True]


def test_a_clash_on_one_output_is_told_with_what_a_cable_could_do():
    text = two_lines().document.text.replace("feet.midi-out-2", "delay.midi-thru")
    found = plan_rig_channels(open_text(text), {"delay": 3, "echo": 3})
    assert found.says.endswith(MOVE_ONE)
