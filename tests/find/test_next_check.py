import numpy as np

from tests.find.boards import field
from thruline.find.belief import believe
from thruline.find.next_check import (
    bits,
    first_of,
    next_check,
    open_checks,
    plan_for,
    seconds_left,
    settled,
)
from thruline.find.search import Did, Search, Step


def _after(*steps):
    return Search(steps=tuple(Step(*one) for one in steps))


def test_first_a_glance():
    check = next_check(believe(field(), Search()), Search())
    assert check is not None
    assert check.id == "glance 1"


def test_what_cannot_be_done_or_nobody_is_sure_of_is_not_asked_again():
    search = _after((Did.CANNOT, "glance 1"), (Did.NOT_SURE, "look box-1 1"))
    asked = {field().checks[place].id for place in open_checks(field(), search).tolist()}
    assert not asked & {"glance 1", "look box-1 1"}
    check = next_check(believe(field(), search), search)
    assert check is not None
    assert check.id != "glance 1"


LEAD = "box-1.midi-out>box-2.midi-in"


def test_what_a_mend_has_settled_is_not_looked_at_again():
    out = (Did.ANSWERED, f"plug {LEAD}", "out")
    mended = (Did.MENDED, f"seat-plug@{LEAD}")
    assert settled(field(), _after(out)) == set()
    assert settled(field(), _after(mended)) == set()
    assert settled(field(), _after(out, mended)) == {f"plug {LEAD}"}
    good = (Did.ANSWERED, f"plug {LEAD}", "good")
    assert settled(field(), _after(good, mended)) == set()
    places = open_checks(field(), _after(out, mended)).tolist()
    assert f"plug {LEAD}" not in {field().checks[place].id for place in places}


def test_a_lead_that_was_replaced_is_not_swapped():
    assert settled(field(), _after((Did.MENDED, f"replace-cable@{LEAD}"))) == {f"swap {LEAD}"}


def test_bits_are_never_below_nothing_nor_above_what_the_answers_can_tell():
    belief = believe(field(), _after((Did.ANSWERED, "look box-2 1", "nothing")))
    places = np.arange(len(field().checks))
    told = bits(belief, places)
    assert (told >= 0).all()
    most = np.log2([max(2, len(answers)) for answers in field().answers])
    assert (told <= most + 1e-9).all()


def test_what_says_nothing_about_the_rest_tells_nothing():
    power = (Did.ANSWERED, "power box-2", "dark")
    belief = believe(field(), _after(power, power, power))
    told = bits(belief, np.array([field().place_of["pedal feet.exp-1"]]))
    assert told[0] < 0.05


def test_answers_bring_the_end_nearer():
    sure = [(Did.ANSWERED, name, "other") for name in ("channel box-2", "channel box-2")]
    search = _after(*sure, (Did.ANSWERED, "look box-2 1", "nothing"))
    begun = seconds_left(plan_for(believe(field(), Search()), Search()))
    assert 0 <= seconds_left(plan_for(believe(field(), search), search)) < begun


def test_a_plan_leaves_out_what_was_asked():
    search = _after((Did.ANSWERED, "glance 1", "box-2"))
    plan = plan_for(believe(field(), search), search)
    assert field().place_of["glance 1"] not in plan.places.tolist()
    assert first_of(plan) in plan.places.tolist()
