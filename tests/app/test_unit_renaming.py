import tomllib

import pytest

from tests.app.keeping import BOARD
from tests.opening import open_text
from thruline.app.mend import after_edits, state_of
from thruline.app.unit_renaming import renamed_unit, unit_facts_json
from thruline.base.errors import CannotUse
from thruline.outside.samples import AS_FOUND, sample_text

NAMING = """
[[preset]]
number = 3
name = "Delay"
delay = { mix = 20 } # the delay

[[sweep]]
name = "delay"
pedal = "feet.exp-1"
presets = [1, 2]
moves = [{ unit = "delay", control = "mix", heel = 0, toe = 127 }]

[audio]
path = ["guitar", "feet.loop-1[delay]", "delay", "delay-amp"]

[[accept]]
finding = "document.value at preset[3].delay.mix and unit[delay].channel"
reason = "they know it"
"""


@pytest.fixture(scope="module")
def state():
    return state_of(open_text(BOARD + NAMING))


@pytest.fixture(scope="module")
def found():
    return state_of(open_text(sample_text(AS_FOUND)))


def test_a_new_id_is_carried_to_wherever_a_unit_is_named(state):
    text = after_edits(state, renamed_unit(state, "delay", "echo")).opened.document.text
    held = tomllib.loads(text)
    assert [one["id"] for one in held["unit"]] == ["feet", "echo"]
    assert held["cable"][0]["to"] == "echo.midi-in"
    assert all("echo" in one and "delay" not in one for one in held["preset"])
    assert held["sweep"][0]["name"] == "delay"
    assert held["sweep"][0]["moves"][0]["unit"] == "echo"
    assert held["audio"]["path"] == ["guitar", "feet.loop-1[echo]", "echo", "delay-amp"]
    accepted = held["accept"][0]["finding"]
    assert accepted == "document.value at preset[3].echo.mix and unit[echo].channel"
    assert 'id = "echo"  # the good one' in text
    assert "echo = { mix = 20 } # the delay" in text


def test_the_controller_is_renamed_in_the_head_of_the_rig(state):
    after = after_edits(state, renamed_unit(state, "feet", "floor"))
    assert after.opened.rig.controller is after.opened.rig.units["floor"]
    assert after.opened.rig.sweeps[0].pedal.unit == "floor"


@pytest.mark.parametrize("place", range(12))
def test_findings_stay_the_same_and_the_way_back_changes_no_byte(found, place):
    old = list(found.opened.rig.units)[place]
    after = after_edits(found, renamed_unit(found, old, "renamed-unit"))
    assert [one.rule for one in after.proof.findings] == [one.rule for one in found.proof.findings]
    back = after_edits(after, renamed_unit(after, "renamed-unit", old))
    assert back.opened.document.text == found.opened.document.text


@pytest.mark.parametrize(
    ("old", "typed", "why"),
    [
        ("delay", "feet", 'a unit "feet" already'),
        ("delay", "My Delay", "not understood as id"),
        ("tape", "echo", 'no unit "tape" any more'),
    ],
)
def test_what_cannot_be_an_id_is_refused(state, old, typed, why):
    with pytest.raises(CannotUse, match=why):
        renamed_unit(state, old, typed)


def test_the_same_id_is_no_change(state):
    assert renamed_unit(state, "delay", " delay ") == ()


def test_the_facts_of_a_unit(state):
    told = unit_facts_json(state, "delay")
    assert [one["key"] for one in told["facts"]] == ["id", "chart", "sent-on", "about"]
    assert [one["key"] for one in told["parts"]] == ["odds"]
    with pytest.raises(CannotUse, match="no unit"):
        unit_facts_json(state, "tape")
