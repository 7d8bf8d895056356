"""A work order is complete and holds nothing needless, whatever the two boards are."""

from hypothesis import given
from hypothesis import strategies as st

from thruline.compare.facts import Key, Part
from thruline.compare.work import (
    Kind,
    carried_out,
    is_complete,
    needless,
    tasks_by_kind,
    work_order,
)

NAMES = st.sampled_from(["a.x", "b.y", "c.z", "a"])
KEYS = st.builds(Key, st.sampled_from(Part), NAMES, st.sampled_from(["", "d.in", "e.in", "1"]))
VALUES = st.sampled_from([1, 2, "three", (("din5", "din5"), (), 300)])
FACTS = st.dictionaries(KEYS, VALUES, max_size=10)


@given(FACTS, FACTS)
def test_carried_out_on_the_old_board_it_gives_the_new_one(old, new):
    tasks = work_order(old, new)
    assert carried_out(old, tasks) == new
    assert is_complete(old, new, tasks)
    assert needless(old, new, tasks) == ()


@given(FACTS, FACTS)
def test_no_change_stands_in_two_tasks_and_every_one_changes_something(old, new):
    changes = [change for task in work_order(old, new) for change in task.changes]
    assert len({change.key for change in changes}) == len(changes)
    assert all(change.before != change.after for change in changes)


@given(FACTS)
def test_of_a_board_with_itself_nothing_is_to_be_done(facts):
    assert work_order(facts, facts) == ()


def test_what_is_not_enough_is_seen():
    new = {Key(Part.CHANNEL, "a"): 3, Key(Part.PLACE, "a"): 5}
    tasks = work_order({}, new)
    assert not is_complete({}, new, tasks[:1])
    assert needless(new, new, tasks) == tasks


def test_the_same_cable_is_plugged_in_elsewhere():
    cable = (("din5", "din5"), (), 300)
    old = {Key(Part.CABLE, "a.out", "b.in"): cable, Key(Part.CABLE, "a.two", "c.in"): cable}
    new = {Key(Part.CABLE, "a.out", "d.in"): cable, Key(Part.CABLE, "a.two", "c.in"): cable}
    (task,) = work_order(old, new)
    assert task.kind is Kind.REPLUG
    assert [change.key.which for change in task.changes] == ["b.in", "d.in"]


def test_what_belongs_to_a_unit_goes_with_it():
    old = {Key(Part.UNIT, "a"): "x", Key(Part.CHANNEL, "a"): 3, Key(Part.SETTING, "a", "s"): "on"}
    (task,) = work_order(old, {})
    assert task.kind is Kind.TAKE_OFF
    assert len(task.changes) == 3
    found = tasks_by_kind(work_order(old, {Key(Part.UNIT, "a"): "y", Key(Part.CHANNEL, "a"): 4}))
    assert {kind: len(tasks) for kind, tasks in found.items()} == {Kind.PUT_ON: 1, Kind.SET: 1}
    assert len(found[Kind.PUT_ON][0].changes) == 2


def test_tasks_come_in_the_order_of_the_work():
    new = {Key(part, "a"): 1 for part in reversed(Part)}
    kinds = [task.kind for task in work_order({}, new)]
    assert kinds == sorted(kinds, key=list(Kind).index)
