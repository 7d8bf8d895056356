from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.address import MOST_STEPS, Address, Step, at, nth, read_address
from thruline.base.errors import CannotUse

KEYS = st.from_regex(r"[A-Za-z0-9_-]+", fullmatch=True)
ENTRIES = st.none() | st.text(st.characters(exclude_characters="[]", exclude_categories=["C"]))
STEPS = st.builds(Step, KEYS, ENTRIES)
ADDRESSES = st.lists(STEPS, min_size=1, max_size=5).map(lambda steps: Address(tuple(steps)))


@given(ADDRESSES)
def test_reading_undoes_writing(address: Address) -> None:
    assert read_address(str(address)) == address


@given(ADDRESSES, KEYS, ENTRIES)
def test_the_parent_of_a_child(address: Address, key: str, entry: str | None) -> None:
    child = address.child(key, entry)
    assert child.parent == address
    assert str(child).startswith(f"{address}.{key}")


@given(st.text(max_size=12))
def test_what_can_be_read_is_written_back_the_same(text: str) -> None:
    with suppress(CannotUse):
        assert str(read_address(text)) == text


@pytest.mark.parametrize("text", ["", ".", "a.", ".a", "a..b", "a[", "a]b", "a[b]c", "a b", "a\n"])
def test_what_is_no_address(text: str) -> None:
    with pytest.raises(CannotUse, match=r"one reads like unit\[delay\]"):
        read_address(text)


def test_an_address_is_not_endlessly_deep() -> None:
    deep = ".".join(["a"] * MOST_STEPS)
    assert str(read_address(deep)) == deep
    with pytest.raises(CannotUse, match="at most 32 steps"):
        read_address(f"{deep}.b")


def test_entries_are_named_as_people_name_them() -> None:
    assert str(at("preset", 12).child("delay").child("mix")) == "preset[12].delay.mix"
    assert str(at("cable", "feet.midi-out>delay.midi-in")) == "cable[feet.midi-out>delay.midi-in]"


def test_the_root_is_its_own_parent() -> None:
    root = at("rig").parent
    assert root.parent == root == Address(())


def test_entries_of_one_name_are_counted() -> None:
    assert [nth("Swell", number) for number in (1, 2, 3)] == ["Swell", "Swell#2", "Swell#3"]
