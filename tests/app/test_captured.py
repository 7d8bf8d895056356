import pytest

from tests.samples.reading import ORCHARD
from thruline.app.audit import plan_for
from thruline.app.captured import captured_view, heard_at
from thruline.app.trace import trace
from thruline.audit.capture import Came, Capture, Note, NoteKind
from thruline.base.errors import CannotUse
from thruline.proof.case import Case
from thruline.wiring import open_file

TAP = "feet.midi-out-1"
PRESSED_US = 5_000_000


@pytest.fixture(scope="module")
def case():
    return Case(open_file(ORCHARD).rig)


@pytest.fixture(scope="module")
def meant(case):
    return plan_for(case, (TAP,))


def capture(case, changed=lambda place, at_us, data: [(at_us, data)]):
    """Preset 7 as its controller sends it, as computed but for what is changed."""
    entries = [Note(PRESSED_US, 0, NoteKind.PRESS, "7")]
    for place, one in enumerate(trace(case, 7).messages):
        last = next(leg.end_us for fall in one.falls for leg in fall.legs)
        for at_us, data in changed(place, last, one.item.data):
            entries.append(Came(PRESSED_US + 70_000 + at_us, 1, data))
    entries.append(Note(PRESSED_US + 9_000_000, 0, NoteKind.PRESS, "8"))
    entries.append(Came(PRESSED_US + 9_100_000, 1, b"\xc0\x05"))
    return Capture(lines=(TAP,), entries=tuple(entries))


def test_what_came_as_computed_lies_over_it(case, meant):
    found = captured_view(case, capture(case), meant, preset=7)
    assert {one["off"] for one in found["rows"]} == {"on time"}
    assert not any(one["differs"] for one in found["rows"])
    assert 'data-part="captured"' in found["svg"]
    assert "0.00 ms" in found["says"] or "the farthest 0" in found["says"]


def test_what_is_late_missing_and_not_planned_is_told_apart(case, meant):
    def changed(place, at_us, data):
        if place == 2:
            return []
        if place == 4:
            return [(at_us, data), (at_us + 400, b"\xbf\x66\x01")]
        return [(at_us + (5_000 if place > 5 else 0), data)]

    rows = captured_view(case, capture(case, changed), meant, preset=7)["rows"]
    offs = [one["off"] for one in rows]
    assert offs.count("did not come") == offs.count("not planned") == 1
    assert offs[0] == "on time"
    assert set(offs[8:]) == {"5.00 ms late"}
    stray = next(one for one in rows if one["off"] == "not planned")
    assert (stray["bytes"], stray["computed"]) == ("BF 66 01", "")


def test_only_what_was_pressed_is_shown(case, meant):
    heard = capture(case)
    assert len(heard_at(heard, meant, 8)) == 1
    with pytest.raises(CannotUse, match="nothing was heard of preset 9"):
        captured_view(case, heard, meant, preset=9)
