"""Mends have names that hold while others are made."""

import shlex

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.address import Address, Step, at
from thruline.base.edit import Edit, add_to, remove, set_to
from thruline.base.errors import CannotUse
from thruline.mend.named import called, named
from thruline.proof.finding import Mend

THRU = Mend("a", (set_to(at("unit", "reverb").child("settings").child("midi-out"), "thru"),))
CABLE = Mend("b", (remove(at("cable", "feet.usb>delay.usb#2")),))
FIRST = Mend("b", (remove(at("cable", "feet.usb>delay.usb")),))
ADDED = Mend("c", (add_to(at("cable"), {"from": "a.out", "to": "b.in", "length": 300}),))


@pytest.mark.parametrize(
    ("mend", "name"),
    [
        (THRU, "reverb.midi-out=thru"),
        (CABLE, "-cable.feet.usb-to-delay.usb#2"),
        (FIRST, "-cable.feet.usb-to-delay.usb"),
        (ADDED, "+cable.a.out-to-b.in"),
        (Mend("", (set_to(at("preset", 3).child("delay"), "20 s"),)), "preset.3.delay=20-s"),
    ],
)
def test_a_name_says_what_is_changed(mend: Mend, name: str) -> None:
    assert named([mend]) == (name,)
    assert called(name, [FIRST, mend]) == (0 if mend is FIRST else 1)


def test_those_that_begin_alike_are_named_by_all_that_they_do() -> None:
    both = Mend("d", (*THRU.edits, *CABLE.edits))
    short, long = named([THRU, both])
    assert short == "reverb.midi-out=thru"
    assert long == f"{short}+-cable.feet.usb-to-delay.usb#2"
    assert called(long, [both]) == 0


def test_a_beginning_is_enough_where_it_is_the_only_one() -> None:
    assert called("rev", [CABLE, THRU]) == 1
    with pytest.raises(CannotUse, match="can be several mends: -cable"):
        called("-cab", [CABLE, FIRST])


def test_the_nearest_is_named_for_a_slip() -> None:
    with pytest.raises(CannotUse, match=r'did you mean "reverb\.midi-out=thru"'):
        called("reverb.midi-ot=thru", [THRU])
    with pytest.raises(CannotUse, match="lists them by name"):
        called("7", [THRU])


_ADDRESSES = st.lists(
    st.builds(Step, st.sampled_from(["unit", "cable", "a", "settings"]), st.text(max_size=8)),
    min_size=1,
    max_size=3,
).map(lambda steps: Address(tuple(steps)))
_EDITS = st.one_of(
    st.builds(remove, _ADDRESSES),
    st.builds(set_to, _ADDRESSES, st.one_of(st.text(max_size=60), st.integers(), st.booleans())),
)


@given(st.lists(st.builds(lambda edit: Mend("x", (edit,)), _EDITS), min_size=1, max_size=6))
def test_a_shell_gives_a_name_on_as_it_is(mends: list[Mend]) -> None:
    for name in named(mends):
        assert shlex.split(name) == [name]


@given(_EDITS, st.lists(_EDITS, max_size=4))
def test_the_same_change_has_the_same_name(edit: Edit, others: list[Edit]) -> None:
    names = named([Mend("x", (one,)) for one in (edit, *others, edit)])
    assert names[0] == names[-1]
