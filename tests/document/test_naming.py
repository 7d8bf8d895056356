import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.document.toml_texts import documents
from thruline.base.address import Address, at, read_address
from thruline.base.errors import CannotUse
from thruline.document.naming import NAMED_BY, address_of, labels, read_name, trail_of

NAMES = st.text(st.sampled_from("ab#2[]%5BDx_ ."), max_size=8)
LISTS = st.lists(
    st.fixed_dictionaries({}, optional={"id": NAMES | st.integers(0, 3), "from": NAMES}), max_size=6
)


def all_trails(data, trail=()):
    yield trail
    if isinstance(data, dict | list):
        for part, value in data.items() if isinstance(data, dict) else enumerate(data):
            yield from all_trails(value, (*trail, part))


@given(st.dictionaries(st.sampled_from(["unit", "cable", "song", "x y", "_x20_"]), LISTS))
def test_every_place_has_an_address_that_leads_back(data):
    addresses = {trail: address_of(data, trail) for trail in all_trails(data)}
    assert len(set(addresses.values())) == len(addresses)
    for trail, address in addresses.items():
        assert trail_of(data, address) == trail
        if trail:
            assert read_address(str(address)) == address


@given(documents())
def test_any_document_has_addresses_that_lead_back(document):
    _, data = document
    for trail in all_trails(data):
        assert trail_of(data, address_of(data, trail)) == trail


@given(LISTS)
def test_no_two_entries_are_called_alike(entries):
    assert len(set(labels("unit", entries))) == len(entries)


@pytest.mark.parametrize(
    ("key", "entry", "label"),
    [
        ("unit", {"id": "delay"}, "delay"),
        ("cable", {"from": "feet.midi-out", "to": "pre.midi-in"}, "feet.midi-out>pre.midi-in"),
        ("preset", {"number": 12, "name": "Balcony"}, "12"),
        ("sweep", {"name": "Swell [wet]"}, "Swell %5Bwet%5D"),
        ("sweep", {"name": "50% 100%25"}, "50% 100%2525"),
        ("moves", {"unit": "delay", "control": "mix"}, "delay>mix"),
        ("output", {"socket": "midi-out"}, "midi-out"),
        ("unit", {"chart": "x"}, "#1"),
        ("unit", {"id": ""}, "#1"),
        ("preset", {"number": True}, "#1"),
        ("preset", {"number": 1.5}, "#1"),
        ("preset", {"number": 2**99}, "#1"),
        ("cable", {"from": "a.b"}, "#1"),
        ("path", "guitar", "#1"),
        ("strangers", {"id": "a"}, "#1"),
    ],
)
def test_what_names_an_entry(key, entry, label):
    assert labels(key, [entry]) == [label]


def test_a_second_entry_of_the_same_name():
    assert labels("preset", [{"number": n} for n in (12, 12, 3, 12)]) == ["12", "12#2", "3", "12#3"]


def test_a_name_that_looks_like_a_second_one():
    names = ["Swell", "Swell#2", "Swell", "#5", ""]
    expected = ["Swell", "Swell#2", "Swell#3", "#5", "#5#2"]
    assert labels("song", [{"name": name} for name in names]) == expected


@given(NAMES.filter(lambda name: name and "#" not in name))
def test_a_name_is_read_back_from_its_label(name):
    assert read_name(labels("unit", [{"id": name}])[0]) == name


def test_an_entry_is_also_found_by_its_name_with_brackets():
    data = {"sweep": [{"name": "Swell [wet]"}]}
    assert trail_of(data, at("sweep", "Swell [wet]")) == ("sweep", 0)


def test_lists_in_lists():
    data = {"curve": [[0, 0], [50, 80]]}
    assert str(address_of(data, ("curve", 1, 0))) == "curve[#2].-[#1]"
    assert trail_of(data, read_address("curve[#2].-[#1]")) == ("curve", 1, 0)


def test_keys_at_the_end_need_not_be_there():
    data = {"unit": [{"id": "delay"}]}
    assert trail_of(data, read_address("unit[delay].place.x")) == ("unit", 0, "place", "x")
    assert trail_of(data, Address(())) == ()
    assert str(address_of(data, ("unit", 4, "place"))) == "unit[#5].place"


@pytest.mark.parametrize(
    "text", ["unit[echo]", "unit[#2]", "song[a].name", "unit.id", "unit[delay].id.x"]
)
def test_what_no_address_leads_to(text):
    with pytest.raises(CannotUse, match="there is no"):
        trail_of({"unit": [{"id": "delay"}]}, read_address(text))


def test_every_list_is_named_by_something():
    assert all(NAMED_BY.values())
