import pytest

from tests.find.boards import field, played, suspect
from thruline.find.kinds import Kind
from thruline.find.search import Did, Search, Step, Verdict
from thruline.find.standing import confirming, seconds_spent, stand
from thruline.find.trials import Trial


@pytest.mark.parametrize(
    "kind",
    [
        Kind.CABLE_OPEN, Kind.CABLE_INTO_OUTPUT, Kind.INPUT_DEAD, Kind.OUTPUT_NOT_PASSING,
        Kind.CHANNEL_BELOW, Kind.OMNI_ON, Kind.PROGRAMS_OFF, Kind.NUMBERS_ONE_UP, Kind.NO_POWER,
        Kind.POWER_VOLTAGE, Kind.FROZEN, Kind.LOADS_SLOWLY, Kind.ENTRY_MISSING,
        Kind.MEMORY_NOT_WRITTEN, Kind.CLOCK_IN_OFF, Kind.PEDAL_TAPER, Kind.NOT_STORED,
    ],
)  # fmt: skip
def test_a_fault_is_found_mended_and_nothing_else_is(kind):
    one = next(each for each in field().suspects if each.kind is kind)
    search = played(one)
    standing = stand(field(), search)
    assert standing.verdict in (Verdict.WORKS, Verdict.NOTHING_FOUND)
    mends = [step.on for step in search.steps if step.did is Did.MENDED]
    assert (
        mends in ([one.mend_key], [])
        if standing.verdict is Verdict.NOTHING_FOUND
        else [one.mend_key]
    )
    if standing.verdict is Verdict.WORKS:
        assert mends == [one.mend_key]


def test_a_good_board_ends_without_a_mend():
    search = played(None)
    assert stand(field(), search).verdict in (Verdict.NOTHING_FOUND, Verdict.UNSURE)
    assert not any(step.did is Did.MENDED for step in search.steps)


def test_nobody_leaves_before_the_mended_unit_itself_was_looked_at():
    steps = played(suspect(Kind.PROGRAMS_OFF, "box-2")).steps
    mended = next(place for place, one in enumerate(steps) if one.did is Did.MENDED)
    after = {one.on for one in steps[mended:]}
    assert "glance 1" in after
    assert any(one.startswith("look box-2") for one in after)


def test_a_mend_comes_with_a_check_that_its_fault_spoils():
    one = suspect(Kind.CHANNEL_ABOVE, "box-2")
    check = confirming(field(), one)
    assert check is not None
    assert check.id == "look box-2 1"
    loose = confirming(field(), suspect(Kind.CABLE_LOOSE))
    assert loose is not None
    assert loose.trial is Trial.REPEAT


def test_contradicting_answers_are_named_the_least_trustworthy_one():
    steps = (
        Step(Did.ANSWERED, "look box-2 1", "right"),
        Step(Did.ANSWERED, "channel box-2", "other"),
        Step(Did.ANSWERED, "entry box-2", "good"),
    )
    standing = stand(field(), Search(steps=steps))
    assert standing.doubtful == 0
    assert stand(field(), Search(steps=steps[2:])).doubtful is None


def test_answers_by_chance_end_outside_or_unsure():
    steps = [Step(Did.ANSWERED, f"look {one} 1", "another") for one in ("box-1", "box-2", "box-3")]
    steps += [Step(Did.ANSWERED, f"lamp {one} 1", "dark") for one in ("box-1", "box-2")]
    steps += [Step(Did.ANSWERED, "listen box-1 1", "as-planned")]
    steps += [Step(Did.ANSWERED, f"hand {one}", "dead") for one in ("box-1", "box-2", "box-3")]
    assert stand(field(), Search(steps=tuple(steps))).belief.other > 0.5


def test_what_could_not_be_done_costs_nothing():
    steps = (Step(Did.CANNOT, "straight box-1 1"), Step(Did.ANSWERED, "look box-1 1", "right"))
    assert seconds_spent(field(), Search(steps=steps)) == field().check("look box-1 1").seconds


def test_which_verdicts_are_an_end():
    assert {one for one in Verdict if not one.is_end} == {Verdict.CHECK, Verdict.MEND}
