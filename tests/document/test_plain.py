import pytest

from thruline.base.address import Address, read_address
from thruline.base.edit import Edit, EditKind, add_to, remove, set_to
from thruline.base.errors import CannotUse
from thruline.document.plain import apply_to_data, at_trail, is_there, same

DATA = {
    "format": 1,
    "unit": [{"id": "feet"}, {"id": "delay", "settings": {"clock": "on"}}],
    "song": [{"name": "Act one", "presets": [11, 12]}],
}


def after(edit):
    return apply_to_data(DATA, edit)


def test_setting_makes_the_tables_on_the_way():
    changed = after(set_to(read_address("unit[feet].place.at.x"), 3))
    assert changed["unit"][0] == {"id": "feet", "place": {"at": {"x": 3}}}
    assert DATA["unit"][0] == {"id": "feet"}


def test_adding_makes_the_list_if_there_is_none():
    assert after(add_to(read_address("cable"), {"from": "a.b"}))["cable"] == [{"from": "a.b"}]
    assert len(after(add_to(read_address("unit"), {"id": "amp"}))["unit"]) == 3


def test_a_list_goes_with_its_last_table_but_not_with_its_last_value():
    assert "song" not in after(remove(read_address("song[Act one]")))
    data = {"song": [{"name": "a", "presets": [1]}]}
    changed = apply_to_data(data, remove(read_address("song[a].presets[#1]")))
    assert changed["song"][0]["presets"] == []


def test_a_table_stays_when_its_last_key_goes():
    changed = after(remove(read_address("unit[delay].settings.clock")))
    assert changed["unit"][1]["settings"] == {}


@pytest.mark.parametrize(
    "edit",
    [
        remove(read_address("unit[echo]")),
        set_to(read_address("unit[echo].channel"), 1),
        set_to(read_address("format.x"), 1),
        set_to(read_address("unit.x"), 1),
        add_to(read_address("format"), {}),
        Edit(EditKind.SET, read_address("format"), None),
        set_to(Address(()), {}),
    ],
)
def test_edits_with_nothing_to_work_on(edit):
    with pytest.raises(CannotUse):
        after(edit)


@pytest.mark.parametrize("address", ["unit[feet].channel", "unit[feet].place.x", "audio"])
def test_what_is_not_there_needs_no_removal(address):
    assert after(remove(read_address(address))) == after(set_to(read_address("format"), 1))


def test_what_was_given_to_an_edit_is_not_shared():
    value = {"x": [1]}
    changed = after(set_to(read_address("unit[feet].place"), value))
    value["x"].append(2)
    assert changed["unit"][0]["place"] == {"x": [1]}


@pytest.mark.parametrize(
    ("one", "other", "are_same"),
    [
        (1, 1, True),
        (1, 1.0, False),
        (1, True, False),
        (0.0, -0.0, False),
        (float("nan"), float("nan"), True),
        ({"a": [1]}, {"a": [1]}, True),
        ({"a": [1]}, {"a": [1.0]}, False),
        ({"a": 1}, {"a": 1, "b": 2}, False),
        ([1], [1, 2], False),
        ((1,), [1], True),
        ("1", ["1"], False),
    ],
)
def test_sameness_to_the_last_detail(one, other, are_same):
    assert same(one, other) is are_same


def test_paths():
    assert at_trail(DATA, ("unit", 1, "id")) == "delay"
    assert is_there(DATA, ("unit", 1, "id"))
    for trail in (("unit", 2), ("unit", -1), ("unit", "id"), ("format", 0), ("format", "x")):
        assert not is_there(DATA, trail)
