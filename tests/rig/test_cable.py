import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.rig.cable import Cable, Jack, is_adapted, joined
from thruline.rig.socket import CONTACTS

plugs = st.sampled_from(sorted(CONTACTS))
wirings = st.sampled_from(["straight", "crossed", "type-a", "type-b"])


@pytest.mark.parametrize(
    ("plugs", "wiring", "joins"),
    [
        (("din5", "din5"), "straight", {"1": "1", "2": "2", "3": "3", "4": "4", "5": "5"}),
        (("din5", "din5"), "crossed", {"1": "1", "2": "2", "3": "3", "4": "5", "5": "4"}),
        (("din5", "trs-3.5"), "straight", {"4": "ring", "5": "tip", "2": "sleeve"}),
        (("din5", "trs-3.5"), "type-a", {"4": "ring", "5": "tip", "2": "sleeve"}),
        (("din5", "trs-6.35"), "type-b", {"4": "tip", "5": "ring", "2": "sleeve"}),
        (("trs-3.5", "din5"), "type-a", {"ring": "4", "tip": "5", "sleeve": "2"}),
        (("trs-3.5", "trs-6.35"), "crossed", {"tip": "ring", "ring": "tip", "sleeve": "sleeve"}),
        (("ts-6.35", "trs-6.35"), "straight", {"tip": "tip", "sleeve": "sleeve"}),
        (("barrel-2.1", "barrel-2.5"), "crossed", {"centre": "outer", "outer": "centre"}),
    ],
)
def test_contacts_that_a_lead_joins(plugs, wiring, joins):
    assert dict(joined(plugs, wiring)) == joins


@pytest.mark.parametrize(
    "plugs", [("din5", "ts-3.5"), ("din5", "usb-c"), ("banana", "din5"), ("barrel-2.1", "trs-3.5")]
)
def test_leads_that_make_no_sense(plugs):
    assert joined(plugs, "straight") is None


@given(plugs, plugs, wirings)
def test_joined_contacts_are_contacts_of_the_plugs(first, second, wiring):
    pairs = joined((first, second), wiring)
    for a, b in pairs or ():
        assert a in CONTACTS[first]
        assert b in CONTACTS[second]


@given(plugs, plugs, wirings)
def test_a_lead_turned_round_joins_the_same(first, second, wiring):
    there, back = joined((first, second), wiring), joined((second, first), wiring)
    assert (there is None) == (back is None)
    if there is not None and back is not None:
        assert {(b, a) for a, b in there} == set(back)


def test_a_cable_is_named_by_its_sockets():
    cable = Cable(
        start=Jack("feet", "midi-out"), stop=Jack("pre", "midi-in"), plugs=("din5", "din5"),
        joins=(), wiring="straight", length=None,
    )  # fmt: skip
    assert cable.name == "feet.midi-out>pre.midi-in"
    assert str(cable.address) == "cable[feet.midi-out>pre.midi-in]"


def test_only_leads_between_din_and_jack_are_of_two_types():
    assert is_adapted(("din5", "trs-3.5"))
    assert is_adapted(("trs-6.35", "din7"))
    assert not is_adapted(("din5", "din5"))
    assert not is_adapted(("trs-3.5", "trs-3.5"))
