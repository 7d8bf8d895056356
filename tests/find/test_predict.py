from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.find.boards import field, meant, shown, suspect
from thruline.find.kinds import Kind
from thruline.find.predict import observed
from thruline.find.trials import Trial
from thruline.find.worlds import Worlds


def test_what_is_left_out_because_it_cannot_matter_does_not_matter():
    here, fresh = field(), Worlds(meant())  # which is told of no two changes that they are alike
    pressed = [(place, one) for place, one in enumerate(here.checks) if one.number]
    for row, one in enumerate(here.suspects, 2):
        alone = tuple(replace(change, alike="") for change in one.changes)
        for place, check in pressed:
            told = here.answers[place][here.outcomes[row, place]]
            assert told == observed(fresh, check, alone), (one.id, check.id)


@given(st.data())
@settings(max_examples=60)
def test_of_two_faults_that_both_silence_something_none_is_forgotten(data):
    here, fresh = field(), Worlds(meant())
    pairs = st.lists(
        st.sampled_from(here.suspects), min_size=2, max_size=2, unique_by=lambda one: one.id
    )
    both = data.draw(pairs)
    seeing = (Trial.GLANCE, Trial.LOOK, Trial.LISTEN, Trial.LAMP, Trial.STRAIGHT)
    check = data.draw(st.sampled_from([one for one in here.checks if one.trial in seeing]))
    changes = [change for one in both for change in one.changes]
    plain = [replace(change, alike="", silences=frozenset()) for change in changes]
    assert observed(here.worlds, check, changes) == observed(fresh, check, plain)


@pytest.mark.parametrize(
    ("kind", "on", "check", "answer"),
    [
        (Kind.NO_POWER, "box-2", "power box-2", "dark"),
        (Kind.NO_POWER, "box-2", "glance 1", "box-2,box-3"),
        (Kind.NO_POWER, "box-2", "lamp box-3 1", "dark"),
        (Kind.CABLE_OPEN, "box-1", "tester box-1.midi-out>box-2.midi-in", "open"),
        (Kind.CABLE_OPEN, "box-1", "listen box-2 1", "nothing"),
        (Kind.INPUT_DEAD, "box-2", "listen box-2 1", "as-planned"),
        (Kind.INPUT_DEAD, "box-2", "swap box-1.midi-out>box-2.midi-in", "nothing"),
        (Kind.CHANNEL_ABOVE, "box-2", "channel box-2", "other"),
        (Kind.OUTPUT_NOT_PASSING, "box-1", "menu box-1.midi-out", "other"),
        (Kind.OUTPUT_NOT_PASSING, "box-1", "tempo box-2", "free"),
        (Kind.ENTRY_MISSING, "box-2", "send box-2 1", "right"),
        (Kind.ENTRY_MISSING, "box-2", "straight box-2 1", "nothing"),
        (Kind.PEDAL_REVERSED, "feet", "pedal feet.exp-1", "backwards"),
    ],
)
def test_what_a_check_shows(kind, on, check, answer):
    assert shown(suspect(kind, on), check) == answer


def test_on_a_good_board_every_look_at_a_thing_is_good():
    for place, check in enumerate(field().checks):
        if check.look:
            assert field().answers[place][field().outcomes[0, place]] == check.good


def test_every_suspect_shows_somewhere():
    assert (field().outcomes[2:] != field().outcomes[0]).any(axis=1).all()
