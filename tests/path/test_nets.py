from hypothesis import given
from hypothesis import strategies as st

from thruline.path.nets import Joint, culprit, nets, touches, turned
from thruline.rig.socket import CONTACTS

contact = st.sampled_from(["tip", "ring", "sleeve", "4", "5"])
pairs = st.lists(st.tuples(contact, contact), max_size=5).map(tuple)
ways = st.lists(pairs, min_size=1, max_size=5).map(tuple)


def joined_by_search(joints, first, second):
    """The plain way: walk along wires from one point to the other."""
    wires = [
        ((place, here), (place + 1, there))
        for place, joint in enumerate(joints)
        for here, there in joint
    ]
    reached, waiting = {first}, [first]
    while waiting:
        point = waiting.pop()
        for a, b in wires:
            for here, there in ((a, b), (b, a)):
                if here == point and there not in reached:
                    reached.add(there)
                    waiting.append(there)
    return second in reached


@given(ways, contact, contact, st.data())
def test_nets_are_what_a_search_along_the_wires_finds(joints, here, there, data):
    places = st.integers(0, len(joints))
    first, second = (data.draw(places), here), (data.draw(places), there)
    found = nets(joints).of(first) == nets(joints).of(second)
    assert found == joined_by_search(joints, first, second)


def test_a_contact_that_touches_nothing_is_a_net_of_its_own():
    assert nets(()).of((0, "tip")) == (0, "tip")
    assert nets(()).of((0, "tip")) != nets(()).of((0, "ring"))


def test_a_mono_plug_joins_ring_and_sleeve_of_the_socket():
    assert touches("ts-3.5", "trs-3.5") == (
        ("tip", "tip"),
        ("sleeve", "sleeve"),
        ("sleeve", "ring"),
    )
    assert touches("trs-3.5", "ts-3.5") == (
        ("tip", "tip"),
        ("sleeve", "sleeve"),
        ("ring", "sleeve"),
    )


@given(st.sampled_from(sorted(CONTACTS)))
def test_a_plug_in_its_own_socket_touches_contact_by_contact(connector):
    assert touches(connector, connector) == tuple((c, c) for c in CONTACTS[connector])


def test_a_five_contact_plug_in_a_seven_contact_socket():
    assert dict(touches("din5", "din7")) == {c: c for c in "12345"}


@given(pairs)
def test_turning_twice_changes_nothing(joint):
    assert turned(turned(joint)) == joint


SHORT = Joint((("tip", "tip"), ("sleeve", "ring"), ("sleeve", "sleeve")), "the mono plug")
PLAIN = Joint((("tip", "tip"), ("ring", "ring"), ("sleeve", "sleeve")), "the cable")


def test_what_joins_two_contacts_seen_from_either_end():
    stereo_to_mono = (PLAIN, Joint(turned(SHORT.pairs), "the mono plug"), PLAIN)
    assert culprit(stereo_to_mono, (0, "ring"), (0, "sleeve")) == "the mono plug"
    assert culprit((PLAIN, SHORT, PLAIN), (3, "ring"), (3, "sleeve")) == "the mono plug"
    assert culprit((PLAIN, PLAIN), (0, "ring"), (0, "sleeve")) is None
