import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.path.boards import link_between
from tests.rigs import (
    make_adapter,
    make_cable,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
    socket,
)
from thruline.path.contacts import LinkState
from thruline.path.links import read_links

JACK = "trs-3.5"
STRAIGHT = f"{JACK}/{JACK}"


def state(out, into, ends, **cable):
    return link_between(out, into, ends, **cable).state


def jack_out(wiring, connector=JACK):
    return midi_out("out", connector, wiring=wiring)


def jack_in(wiring, isolated=True, connector=JACK):
    return midi_in("in", connector, wiring=wiring, isolated=isolated)


@pytest.mark.parametrize("isolated", [True, None])
@pytest.mark.parametrize(("out", "into"), [("din5", "din5"), ("din7", "din5"), ("din7", "din7")])
def test_a_straight_din_cable_works(out, into, isolated):
    into = midi_in("in", into, isolated=isolated)
    assert state(midi_out("out", out), into, "din5/din5") is LinkState.WORKS


@pytest.mark.parametrize(
    ("out", "into", "ends", "wiring", "expected"),
    [
        # The same arrangement at both ends.
        ("type-a", "type-a", STRAIGHT, "straight", "works"),
        ("type-b", "type-b", STRAIGHT, "straight", "works"),
        ("ts", "ts", STRAIGHT, "straight", "works"),
        # Type A into type B: the diode across the receiver conducts, total silence.
        ("type-a", "type-b", STRAIGHT, "straight", "reversed"),
        ("type-b", "type-a", STRAIGHT, "straight", "reversed"),
        ("type-a", "type-b", STRAIGHT, "crossed", "works"),
        ("type-a", "type-a", STRAIGHT, "crossed", "reversed"),
        # A mono sender on a stereo socket: what the ring wants is not there.
        ("ts", "type-a", STRAIGHT, "straight", "open"),
        # A mono plug in a type A socket: the source is shorted to the sleeve.
        ("type-a", "type-a", "ts-3.5/ts-3.5", "straight", "shorted"),
        ("type-a", "type-a", "ts-3.5/trs-3.5", "straight", "shorted"),
        ("type-b", "type-b", "ts-3.5/ts-3.5", "straight", "shorted"),
        # A receiver of voltages, a current loop that feeds it by the right contact, or not.
        ("type-a", "tip-active", STRAIGHT, "straight", "cannot-tell"),
        ("type-b", "ring-active", STRAIGHT, "straight", "cannot-tell"),
        ("type-b", "tip-active", STRAIGHT, "straight", "reversed"),
        ("type-a", "ring-active", STRAIGHT, "straight", "reversed"),
        # Voltage to voltage.
        ("tip-active", "ring-active", STRAIGHT, "straight", "open"),
        ("tip-active", "ring-active", STRAIGHT, "crossed", "works"),
        # An isolated receiver wants a current that a voltage sender has not.
        ("tip-active", "type-a", STRAIGHT, "straight", "no-loop"),
        ("ring-active", "type-b", STRAIGHT, "straight", "no-loop"),
    ],
)
def test_jack_to_jack(out, into, ends, wiring, expected):
    assert state(jack_out(out), jack_in(into), ends, wiring=wiring) == expected


@pytest.mark.parametrize("out", ["type-a", "type-b"])
def test_a_stereo_sender_into_a_mono_socket_is_shorted(out):
    into = midi_in("in", "ts-3.5")
    link = link_between(jack_out(out), into, "trs-3.5/trs-3.5")
    assert link.state is LinkState.SHORTED
    assert "by the trs-3.5 plug at pre.in" in link.why


@pytest.mark.parametrize(
    ("wiring", "into", "isolated", "expected"),
    [
        ("type-a", "type-a", False, "not-isolated"),
        ("type-a", "type-b", False, "reversed"),
        ("tip-active", "tip-active", False, "not-isolated"),
        ("tip-active", "tip-active", None, "not-isolated"),
        ("tip-active", "type-a", False, "cannot-tell"),
        ("tip-active", "type-a", None, "cannot-tell"),
        ("ring-active", "type-a", False, "open"),
        ("ring-active", "type-a", None, "no-loop"),
    ],
)
def test_receivers_that_are_not_isolated_or_may_not_be(wiring, into, isolated, expected):
    assert state(jack_out(wiring), jack_in(into, isolated), STRAIGHT) == expected


def test_a_mono_sender_drives_a_type_b_input_only_if_that_is_isolated():
    ends = "ts-3.5/ts-3.5"
    out = midi_out("out", "ts-3.5")
    assert state(out, jack_in("type-b"), ends) is LinkState.WORKS
    assert state(out, jack_in("type-b", isolated=False), ends) is LinkState.SHORTED
    assert state(out, jack_in("type-b", isolated=None), ends) is LinkState.CANNOT_TELL


@pytest.mark.parametrize(
    ("wires", "isolated", "expected"),
    [
        ({"4": "4", "5": "5"}, True, "works"),
        ({"4": "4", "2": "2"}, True, "open"),
        ({"5": "5", "2": "2"}, True, "open"),
        ({"5": "5", "2": "2"}, False, "cannot-tell"),
        ({"5": "5", "2": "2"}, None, "cannot-tell"),
        ({"5": "5"}, False, "open"),
        ({"4": "5", "5": "4"}, True, "reversed"),
        ({"4": "4", "5": "4"}, True, "shorted"),
        ({"4": "2", "5": "5"}, True, "open"),
        ({"4": "4", "2": "5"}, True, "shorted"),
        ({"5": "5", "2": "4"}, True, "shorted"),
        ({"1": "1", "3": "3"}, True, "open"),
    ],
)
def test_leads_with_their_wires_one_by_one(wires, isolated, expected):
    into = midi_in("in", isolated=isolated)
    assert state(midi_out("out"), into, "din5/din5", wiring=wires) == expected


def test_a_lead_for_voltage_has_no_source_for_an_isolated_input():
    wires = {"tip": "5", "sleeve": "2"}
    ends = "trs-6.35/din5"
    out = midi_out("out", "trs-6.35", wiring="tip-active")
    assert state(out, midi_in("in"), ends, wiring=wires) is LinkState.NO_LOOP
    with_source = midi_out("out", "trs-6.35", wiring="type-a")
    assert state(with_source, midi_in("in"), ends, wiring=wires) is LinkState.OPEN


@pytest.mark.parametrize(
    ("kind", "connector"),
    [("expression-in", "trs-6.35"), ("audio-in", "ts-6.35"), ("switch-in", "trs-6.35")],
)
def test_midi_into_a_socket_for_something_else(kind, connector):
    out = midi_out("out", "trs-6.35")
    ends = f"trs-6.35/{connector}"
    link = link_between(out, socket("in", kind, connector), ends)
    assert link.state is LinkState.WRONG_KIND
    assert link.why == f"feet.out is for MIDI and pre.in is {kind}"


def test_a_plug_that_does_not_go_in():
    link = link_between(midi_out("out"), midi_in("in", "trs-3.5"), "din5/trs-6.35")
    assert link.state is LinkState.UNFIT
    assert link.why == "the plug trs-6.35 does not go into pre.in, which is trs-3.5"
    assert state(midi_out("out"), midi_in("in"), "din7/din5") is LinkState.UNFIT


@pytest.mark.parametrize("make", [midi_in, midi_out])
def test_two_of_a_kind(make):
    assert state(make("one"), make("two"), "din5/din5") is LinkState.WRONG_WAY


def test_usb_meets_usb_only():
    out = socket("usb", "usb", "usb-b")
    assert state(out, socket("usb", "usb", "usb-c"), "usb-b/usb-c") is LinkState.WORKS
    strange = link_between(out, midi_in("in"), "usb-b/din5", wiring={"usb": "5"})
    assert strange.state is LinkState.WRONG_KIND
    cut = link_between(out, socket("usb", "usb", "usb-b"), "usb-b/usb-b", wiring={"shell": "shell"})
    assert cut.state is LinkState.OPEN


def test_a_socket_without_midi_wiring_cannot_be_told():
    assert state(midi_out("out", "barrel-2.1"), midi_in("in"), "barrel-2.1/din5", wiring={
        "centre": "4", "outer": "5"}) is LinkState.CANNOT_TELL  # fmt: skip


def test_signals_on_contacts_that_the_socket_lacks_are_open():
    out = midi_out("out", "ts-3.5", wiring="type-a")
    assert state(out, jack_in("type-a"), "ts-3.5/trs-3.5").carries is False


def test_the_words_name_the_contacts():
    link = link_between(jack_out("type-a"), midi_in("in"), "trs-3.5/din5", wiring="type-b")
    assert link.state is LinkState.REVERSED
    assert link.why == (
        "ring at feet carries the source and meets contact 5, where pre expects the sink; "
        "tip at feet carries the sink and meets contact 4, where pre expects the source"
    )


def test_the_words_for_a_missing_wire():
    link = link_between(midi_out("out"), midi_in("in"), "din5/din5", wiring={"5": "5"})
    assert "contact 4 at feet carries the source and meets nothing at pre" in link.why
    assert "contact 4 at pre expects the source and meets nothing" in link.why


def test_the_words_for_a_mono_plug():
    link = link_between(jack_out("type-a"), jack_in("type-a"), "ts-3.5/trs-3.5")
    assert link.why == (
        "ring at feet carries the source and is joined with sleeve, the shield, "
        "by the ts-3.5 plug at feet.out"
    )


# --- properties ---

SWAPS = {
    "type-a": {"4": "ring", "5": "tip", "2": "sleeve"},
    "type-b": {"4": "tip", "5": "ring", "2": "sleeve"},
}


@given(st.lists(st.sampled_from(sorted(SWAPS)), max_size=6))
def test_adapters_in_a_row_work_if_the_pair_is_swapped_an_even_number_of_times(kinds):
    # Adapters alternate: DIN to jack, jack to DIN; odd ones are mounted the other way round.
    names = [f"adapter-{number}" for number in range(len(kinds))]
    charts = [make_controller(), make_chart()]
    charts += [make_adapter(kind, contacts) for kind, contacts in SWAPS.items()]
    units = [make_unit("feet", "braeburn"), make_unit("pre", "bramley")]
    units += [make_unit(name, kind) for name, kind in zip(names, kinds, strict=True)]
    cables, at, plug = [], "feet.midi-out", "din5"
    for number, name in enumerate(names):
        near, far = ("a", "b") if number % 2 == 0 else ("b", "a")
        cables.append(make_cable(at, f"{name}.{near}", f"{plug}/{plug}"))
        at, plug = f"{name}.{far}", "trs-3.5" if plug == "din5" else "din5"
    cables.append(make_cable(at, "pre.midi-in", f"{plug}/din5"))
    (link,) = read_links(make_rig(units, cables, charts))
    # An adapter lead closes the row when it ends on a jack: a straight one is type A.
    row = [*kinds, "type-a"] if plug != "din5" else kinds
    swapped = sum(kind == "type-b" for kind in row) % 2
    assert link.state is (LinkState.REVERSED if swapped else LinkState.WORKS)
    assert link.adapters == tuple(names)


loop_wirings = st.sampled_from(["type-a", "type-b", "ts", "tip-active", "ring-active"])
wires = st.dictionaries(
    st.sampled_from(["tip", "ring", "sleeve"]), st.sampled_from(["tip", "ring", "sleeve"])
)


@given(loop_wirings, loop_wirings, wires, st.sampled_from([True, False, None]))
def test_a_cable_may_be_written_from_either_end(out, into, joins, isolated):
    plain = link_between(jack_out(out), jack_in(into, isolated), STRAIGHT, wiring=joins)
    back = [make_chart("sender", [jack_out(out)]), make_chart("taker", [jack_in(into, isolated)])]
    units = [make_unit("feet", "sender"), make_unit("pre", "taker")]
    if len(set(joins.values())) < len(joins):
        return  # a document can only write it from one end
    cable = make_cable("pre.in", "feet.out", STRAIGHT, wiring={b: a for a, b in joins.items()})
    (turned,) = read_links(make_rig(units, [cable], back))
    assert (turned.start, turned.stop, turned.state) == (plain.start, plain.stop, plain.state)


@given(loop_wirings, loop_wirings, wires)
def test_isolation_left_out_is_never_more_than_both_answers_allow(out, into, joins):
    known = [state(jack_out(out), jack_in(into, i), STRAIGHT, wiring=joins) for i in (True, False)]
    unsaid = state(jack_out(out), jack_in(into, None), STRAIGHT, wiring=joins).carries
    allowed = {one.carries for one in known}
    assert unsaid in allowed or (unsaid is None and len(allowed) > 1)


@given(st.sampled_from(list(LinkState)))
def test_every_state_has_its_sentence(one):
    assert one.says.endswith(".")
