"""A cable plan of a rig as an edit of its document."""

import re

from tests.opening import open_text
from thruline.app.plan_cables import Stock, cable_sections, cables_json, plan_rig_cables
from thruline.plan.cables import Wish
from thruline.proof.example_boards import a_cable, a_power_lead, a_unit, board

PLACED = (
    a_unit("delay", "bramley-delay", "channel = 3", "place = { x = 400, y = 0 }"),
    a_unit("supply", "elstar-supply", "place = { x = 0, y = 300 }"),
    a_cable("feet.midi-out-1", "delay.midi-in"),
    a_power_lead("supply.outlet-1", "delay.power-in", "length = 100    # too short"),
)
NO_STOCK = Stock(spools={}, rests={})


def planned(*pieces, wish=None, stock=NO_STOCK):
    text = board(*pieces).rig
    feet = 'chart = "braeburn-six"'
    return plan_rig_cables(
        open_text(text.replace(feet, f"{feet}\nplace = {{ x = 0, y = 0 }}", 1)),
        wish or Wish(),
        stock,
    )


def test_lengths_are_written_and_comments_stay():
    found = planned(*PLACED)
    text = found.tried.after.opened.document.text
    assert re.search(r"length = \d+    # too short", text)
    assert all(cable.length for cable in found.tried.after.opened.rig.cables)
    assert plan_rig_cables(found.tried.after.opened, Wish(), NO_STOCK).tried.edits == ()


def test_what_is_made_is_cut_and_wired():
    found = planned(*PLACED)
    titles = [section.title for section in cable_sections(found)]
    assert titles[0] == "Cables"
    assert [one for one in titles if one.startswith("To cut")] == [
        "To cut: MIDI (shielded twisted pair)",
        "To cut: power (twin, at least 0.5 mm² each)",
    ]
    assert "Wiring: M1" in titles
    assert titles[-1] == "Cautions"
    assert found.is_whole
    assert found.says.startswith("2 cables; 2 to make, ")


def test_rests_are_used_and_what_is_too_long_is_told():
    stock = Stock(spools={"MIDI": 200}, rests={"power": (3000,)})
    found = planned(*PLACED, stock=stock)
    assert not found.is_whole
    cuts = {one["kind"]: one for one in cables_json(found)["cutting"]}
    assert cuts["MIDI"]["too_long"] == ["M1"]
    assert cuts["power"]["cuts"][0]["is_rest"]
    notes = [note for section in cable_sections(found) for note in section.notes]
    assert "M1 has room on no spool or rest: take a longer one." in notes


def test_a_length_that_cannot_be_told_is_a_lack():
    found = planned(a_unit("delay", "bramley-delay"), PLACED[2])
    assert not found.is_whole
    assert "the length of 1 cannot be told" in found.says


def test_what_is_sold_is_not_cut():
    assert planned(*PLACED, wish=Wish(sold=True)).cuts == ()


def test_json_gives_way_and_contacts():
    one = cables_json(planned(*PLACED))["cables"][0]
    assert one["way"][0] != one["way"][-1]
    assert ["4", "4", "current source"] in one["contacts"]


def test_what_the_sound_lacks_is_added():
    path = '[audio]\npath = ["guitar", "feet", "delay", "amp"]\n'
    found = planned(*PLACED, path)
    added = [one for one in found.cables if one.is_added]
    assert [str(one.cable.stop) for one in added] == ["delay.input"]
    after = found.tried.after.opened
    assert any(cable.name == added[0].cable.name for cable in after.rig.cables)
    assert plan_rig_cables(after, Wish(), NO_STOCK).tried.edits == ()


def test_what_is_added_without_a_place_has_no_length_yet():
    path = '[audio]\npath = ["guitar", "feet", "delay", "amp"]\n'
    found = planned(PLACED[0].replace("place", "# place"), path)
    assert [(one.is_added, one.length) for one in found.cables] == [(True, None)]
    assert "length" not in found.tried.diff
