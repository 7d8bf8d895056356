from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from tests.find.boards import box, meant
from tests.rigs import make_cable, make_controller, make_rig, make_unit, midi_out
from tests.samples.reading import ORCHARD
from thruline.document.odds_shape import FaultKind
from thruline.find.experience import Experience
from thruline.find.kinds import Kind
from thruline.find.meant import meant_by
from thruline.find.suspects import suspects_of
from thruline.proof.case import Case
from thruline.wiring import open_file

PLAIN = suspects_of(meant())


def test_names_are_one_to_one():
    assert len({one.id for one in PLAIN}) == len(PLAIN)


def test_a_full_board_has_more_than_fifty_kinds_of_suspect():
    found = suspects_of(meant_by(Case(open_file(ORCHARD).rig)))
    assert len({one.kind for one in found}) >= 50


@given(st.sampled_from(PLAIN), st.integers(1, 50))
def test_what_was_the_culprit_before_is_likelier(one, times):
    counted = suspects_of(meant(), Experience(seen={one.id: times}))
    place = PLAIN.index(one)
    before = PLAIN[place].odds / sum(each.odds for each in PLAIN)
    after = counted[place].odds / sum(each.odds for each in counted)
    assert after > before
    assert all(each.odds > 0 for each in counted)


def test_a_kind_counts_for_all_that_have_it():
    counted = suspects_of(meant(), Experience(seen={Kind.CHANNEL_ABOVE: 3}))
    raised = {one.kind for one, plain in zip(counted, PLAIN, strict=True) if one.odds > plain.odds}
    assert raised == {Kind.CHANNEL_ABOVE}


def _with_odds(*, chart=(), unit=()):
    """A controller and one unit, with what its chart and the rig say about how it fails."""
    feet = make_controller(
        "braeburn", [midi_out()], controller={"presets": 8, "sends": ["program"]}
    )
    heard = box("bramley", odds=list(chart))
    rig = make_rig(
        [make_unit("feet", "braeburn"), make_unit("box-1", "bramley", channel=3, odds=list(unit))],
        [make_cable("feet.midi-out", "box-1.midi-in")],
        [feet, heard],
        preset=[{"number": 1, "name": "One", "box-1": {"program": 4}}],
    )
    return {one.id: one.odds for one in suspects_of(meant_by(Case(rig)))}


def test_a_chart_and_the_rig_move_the_odds_of_one_kind_of_a_unit():
    plain = _with_odds()
    often = _with_odds(
        chart=[{"fault": "frozen", "times": 8}, {"fault": "input-dead", "times": 0.5}]
    )
    name, socket = "frozen@box-1", "input-dead@box-1.midi-in"
    assert often[name] == pytest.approx(8 * plain[name])
    assert often[socket] == pytest.approx(plain[socket] / 2)
    assert all(often[one] == plain[one] for one in plain if one not in (name, socket))
    here = _with_odds(
        chart=[{"fault": "frozen", "times": 8}], unit=[{"fault": "frozen", "times": 0.1}]
    )
    assert here[name] == pytest.approx(plain[name] / 10)


def test_a_kind_that_nobody_knows_is_refused():
    with pytest.raises(ValidationError, match="fault"):
        _with_odds(chart=[{"fault": "frozzen", "times": 8}])


def test_documents_know_every_kind_that_a_unit_can_have():
    of_others = {kind for kind in Kind if kind.startswith("cable-")} | {
        Kind.TOOL_FAULT, Kind.USB_NOISE
    }  # fmt: skip
    assert set(get_args(FaultKind)) == set(Kind) - of_others
