"""The board as it came in: the same as the right one, but for these mistakes."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.samples.reading import AS_FOUND, ORCHARD, plain, rig
from thruline.rig.chart import Governs, Way
from thruline.rig.preset import StoredControl, StoredPause, StoredProgram
from thruline.rig.unit import allows, takes_program, way_of
from thruline.rig.values import NotUnderstood

RIG = rig(AS_FOUND)

MISTAKES = {
    "an output in the middle of the line sends its own messages only":
        {"unit[reverb].settings.midi-out"},
    "two units on one channel":
        {"unit[level].channel"},
    "program changes are not taken":
        {"unit[lights].settings.program-receive"},
    "left at the factory's setting, deaf to control changes":
        {"unit[echo].settings.control-receive"},
    "an adapter lead of the wrong type":
        {"cable[split.out-2>pitch.midi-in].wiring"},
    "a plug that does not go into its socket":
        {"cable[echo.midi-out>looper.midi-in].ends"},
    "two power leads exchanged, so that one outlet is overloaded":
        {"cable[supply.outlet-5>mod.power-in]", "cable[supply.outlet-10>mod.power-in]",
         "cable[supply.outlet-10>split.power-in]", "cable[supply.outlet-5>split.power-in]"},
    "a control is set before the unit has loaded":
        {"preset[5].messages"},
    "a program number one too low, as the screen counts from 1":
        {"preset[8].messages"},
    "bank select is missing":
        {"preset[9].messages"},
    "a control that no program resets is set in one preset only":
        {"preset[13].pre"},
    "a name that the display cannot show":
        {"preset[21].name"},
    "a value beyond the end of the scale":
        {"preset[22].reverb.decay"},
    "a sweep of a control that does not suit one":
        {"sweep[Bend].moves[pitch>shift]", "sweep[Bend].moves[pitch>bend]"},
    "a song calls a preset that does not exist":
        {"song[Lantern song].presets"},
    "an acceptance that no longer applies":
        {"accept[document.name-too-long at preset[22].name]"},
}  # fmt: skip
"""Each mistake, and where the two documents differ for it."""

NAMED_BY = {
    "unit": ("id",), "cable": ("from", "to"), "preset": ("number",), "sweep": ("name",),
    "song": ("name",), "moves": ("unit", "control"), "accept": ("finding",),
}  # fmt: skip


def rows(place: str, value: Any, key: str = "") -> Iterator[tuple[str, str]]:
    """Every plain value of a document with its address."""
    if isinstance(value, dict):
        for inner, below in value.items():
            yield from rows(f"{place}.{inner}" if place else inner, below, inner)
    elif isinstance(value, list) and key in NAMED_BY:
        for entry in value:
            name = ">".join(str(entry[part]) for part in NAMED_BY[key])
            yield from rows(f"{place}[{name}]", entry)
    else:
        yield place, repr(value)


def differences() -> set[str]:
    """The addresses at which the two documents differ."""
    right, found = dict(rows("", plain(ORCHARD))), dict(rows("", plain(AS_FOUND)))
    differing = {place for place, value in right.items() if found.get(place) != value}
    differing |= set(found) - set(right)
    return differing - {"rig.name", "rig.about"}


def is_part(place: str, whole: str) -> bool:
    """Whether an address is another one or lies within it."""
    return place == whole or place.startswith((f"{whole}.", f"{whole}["))


def test_there_are_about_a_dozen():
    assert 12 <= len(MISTAKES) <= 16


def test_the_two_boards_differ_by_these_mistakes_and_nothing_else():
    told = set().union(*MISTAKES.values())
    differing = differences()
    for place in differing:
        assert any(is_part(place, one) for one in told), place
    for one in told:
        assert any(is_part(place, one) for place in differing), one


def test_no_comment_gives_them_away():
    text = AS_FOUND.read_text(encoding="utf-8")
    comments = [row for row in text.splitlines() if "#" in row]
    head = text.index("format = 1")
    assert all(row.startswith(("# ---", "#")) for row in comments)
    assert all(row.startswith("# ---") for row in text[head:].splitlines() if "#" in row)


def test_it_loads_and_only_the_missing_preset_is_left_open():
    assert [one.found for one in RIG.unresolved] == ["25"]


def test_settings_that_are_wrong():
    assert way_of(RIG.units["reverb"], "midi-out") is Way.OWN
    assert takes_program(RIG.units["lights"]) is False
    assert allows(RIG.units["echo"], Governs.CONTROL_RECEIVE) is False
    assert RIG.units["level"].channel == RIG.units["pitch"].channel


def test_the_value_that_the_unit_does_not_have():
    preset = RIG.preset(22)
    assert preset is not None
    bad = [
        one.value
        for goal in preset.goals
        for one in goal.controls
        if isinstance(one.value, NotUnderstood)
    ]
    assert [one.written for one in bad] == ["25.0 s"]


def stored(number: int):
    preset = RIG.preset(number)
    assert preset is not None
    assert preset.stored is not None
    return preset.stored


@pytest.mark.parametrize("number", [5, 8, 9])
def test_what_is_stored_is_otherwise_what_the_goals_ask_for(number):
    """Every program is there but the one that is off, and every control with its value."""
    preset = RIG.preset(number)
    assert preset is not None
    sent = {one.channel: one.wire for one in stored(number) if isinstance(one, StoredProgram)}
    values = {
        (one.channel, one.number): one.value
        for one in stored(number)
        if isinstance(one, StoredControl)
    }
    wrong = set()
    for goal in preset.goals:
        channel = RIG.units[goal.unit].channel
        wire = goal.program.wire if goal.program else None
        if wire is not None and sent[channel] != wire.program:
            wrong.add(goal.unit)
        for one in goal.controls:
            assert not isinstance(one.value, NotUnderstood)
            assert values[channel, one.control.number] == one.value.wire
    assert wrong == ({"echo"} if number == 8 else set())


def test_the_mistakes_in_what_is_stored():
    assert StoredProgram(4, 21, 20) in stored(8)  # label 21 is program 22 on this screen
    assert not any(isinstance(one, StoredControl) and one.number in (0, 32) for one in stored(9))
    assert not any(isinstance(one, StoredPause) for one in stored(5))
