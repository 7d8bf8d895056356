import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.odd_rigs import sample_charts
from tests.timing.ears import BYTE, CHOICE, TIME, control, fates, heard, program, unit
from thruline.rig.programs import WireProgram
from thruline.rig.unit import Unit
from thruline.timing.fate import Fate
from thruline.timing.receive import Arrival, hears_channel, listener_of, receive

MSB = {"slots": {"count": 128, "first": 0}, "banks": {"count": 9}, "separator": "."} | {
    "bank-select": "msb"
}
LSB = MSB | {"bank-select": "lsb"}
BOTH = MSB | {"banks": {"count": 300}, "bank-select": "both"}
LOADS_US = 20_000
APPLIES_US = 3_000


def settling(controls):
    """A unit that loads for 20 ms."""
    settle = {"ms": LOADS_US // 1000, "apply-ms": APPLIES_US // 1000}
    return unit(settle=settle if controls is None else settle | {"controls": controls})


def test_messages_for_others_are_left_alone():
    assert fates(unit(), program(5, 4), control(14, 1, 4)) == ["other-channel"] * 2


def test_what_is_no_program_and_no_control_changes_nothing():
    others = (0x92, 60, 100), (0xF8,), (0xF0, 0x7D, 0xF7), (0xE2, 0, 64), control(123, 0)
    assert fates(unit(), *others) == ["not-concerned"] * 5


def test_a_unit_in_omni_hears_every_channel():
    one = unit(channel={"omni": "always"})
    assert [hears_channel(one, channel) for channel in (1, 3, 16)] == [True] * 3


def test_a_unit_hears_the_channels_that_it_occupies():
    one = unit(channel={"occupies": 2})
    assert [channel for channel in range(1, 17) if hears_channel(one, channel)] == [3, 4]


def test_of_a_unit_whose_channel_nobody_knows_nothing_can_be_told():
    one = unit(on=None, channel={})
    assert fates(one, program(1), control(14, 1)) == ["cannot-tell"] * 2


def test_a_unit_without_a_channel_rule_hears_nothing():
    assert hears_channel(unit(channel=None, on=None), 3) is False


@pytest.mark.parametrize(
    ("able", "fate"), [(True, "obeyed"), (False, "not-taken"), (None, "cannot-tell")]
)
def test_what_a_unit_takes(able, fate):
    takes = {} if able is None else {"program": able, "control": able}
    assert fates(unit(receive=takes), program(1), control(14, 1)) == [fate] * 2


def test_a_program_of_a_unit_whose_labels_nobody_knows():
    assert fates(unit(programs=None), program(1)) == ["cannot-tell"]


@pytest.mark.parametrize(("number", "fate"), [(99, "obeyed"), (100, "no-program")])
def test_a_program_is_there_or_not(number, fate):
    found = heard(unit(), program(number))
    assert [one.value for one in found.fates] == [fate]
    assert (found.program is None) is (fate == "no-program")


@pytest.mark.parametrize(
    ("programs", "messages", "bank", "old"),
    [
        (MSB, [control(0, 3)], 3, False),
        (MSB, [], 0, True),
        (MSB, [control(32, 3)], 0, True),  # it does not read the other byte
        (LSB, [control(32, 4)], 4, False),
        (BOTH, [control(0, 1), control(32, 2)], 130, False),
        (BOTH, [control(32, 2), control(0, 1)], 130, False),
        (BOTH, [control(0, 1)], 128, True),
        (MSB | {"bank-after": "clears"}, [], 0, False),
    ],
)
def test_the_bank_comes_from_its_bytes(programs, messages, bank, old):
    found = heard(unit(programs=programs), *messages, program(7))
    assert found.fates == (*[Fate.PREPARES] * len(messages), Fate.OBEYED)
    assert (found.program, found.old_bank) == (WireProgram(bank, 7), old)


@pytest.mark.parametrize(("after", "bank"), [("keeps", 3), ("clears", 0)])
def test_the_bank_after_a_program_change(after, bank):
    one = unit(programs=MSB | {"bank-after": after})
    found = heard(one, control(0, 3), program(7), program(8))
    assert (found.program, found.old_bank) == (WireProgram(bank, 8), False)


def test_a_bank_that_the_unit_does_not_have_leads_to_no_program():
    found = heard(unit(programs=MSB), control(0, 9), program(7))
    assert (found.fates[1], found.program, found.loading) == (Fate.NO_PROGRAM, None, ())


def test_without_bank_select_control_0_is_a_control_like_any_other():
    assert fates(unit(), control(0, 3)) == ["no-control"]
    first = [{"id": "first", "name": "First", "number": 0}]
    assert heard(unit(control=first), control(0, 3)).values == {"first": 3}


def test_a_control_has_its_value():
    assert heard(unit(), control(14, 9), control(14, 5)).values == {"mix": 5}
    assert fates(unit(), control(15, 9)) == ["no-control"]


@pytest.mark.parametrize(
    ("value", "fate"), [(9, "out-of-range"), (10, "obeyed"), (100, "obeyed"), (101, "out-of-range")]
)
def test_a_value_fits_or_not(value, fate):
    narrow = [{"id": "shift", "name": "Shift", "number": 20, "low": 10, "high": 100}]
    assert fates(unit(control=narrow), control(20, value)) == [fate]


@pytest.mark.parametrize(("value", "fate"), [(40, "obeyed"), (41, "dead-zone"), (80, "obeyed")])
def test_between_two_choices_nothing_happens(value, fate):
    found = heard(unit(), control(18, value))
    assert [one.value for one in found.fates] == [fate]
    assert found.values == ({} if fate == "dead-zone" else {"choice": value})


def test_a_flip_is_counted_and_a_press_leaves_nothing():
    found = heard(unit(), control(102, 127), control(102, 0), control(80, 127))
    assert (found.values, found.flips) == ({}, {"record": 2})
    assert found.right_us == 9 * BYTE


def test_a_pair_is_coarse_and_then_fine():
    assert heard(unit(), control(16, 2), control(48, 5)).values == {"time": 261}
    assert heard(unit(), control(16, 2)).values == {"time": 256}
    assert heard(unit(), control(16, 2), control(48, 5), control(16, 3)).values == {"time": 384}


def test_a_fine_half_by_itself_depends_on_what_was_before():
    found = heard(unit(), control(48, 5))
    assert (found.fates, found.values) == ((Fate.HALF,), {})
    found = heard(unit(), control(16, 2), program(1), control(48, 5))
    assert found.fates[-1] is Fate.HALF
    assert (found.values, found.before_program) == ({}, {"time": 256})


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (300, ["prepares", "obeyed"]),
        (255, ["out-of-range"] * 2),
        (299, ["prepares", "out-of-range"]),
    ],
)
def test_a_coarse_half_may_get_a_fine_one_that_fits(value, expected):
    narrow = unit(control=[TIME | {"low": 300, "high": 1000}])
    assert fates(narrow, control(16, value >> 7), control(48, value & 127)) == expected


def test_a_coarse_half_between_choices_may_get_a_fine_one_that_fits():
    zones = [{"label": "one", "low": 130, "high": 140}]
    one = unit(control=[TIME | {"kind": "steps", "zones": zones}])
    found = heard(one, control(16, 1), control(48, 5))
    assert (found.fates, found.values) == ((Fate.PREPARES, Fate.OBEYED), {"time": 133})


SELECT_GLIDE = control(99, 8), control(98, 6)
NULL = control(101, 127), control(100, 127)


def test_a_parameter_is_selected_and_then_given():
    found = heard(unit(), *SELECT_GLIDE, control(6, 1), control(38, 2), *NULL, control(6, 9))
    assert found.values == {"glide": 130}
    assert found.fates[:4] == (Fate.PREPARES, Fate.PREPARES, Fate.OBEYED, Fate.OBEYED)
    assert found.fates[-1] is Fate.NOT_CONCERNED


def test_a_parameter_is_right_when_it_is_closed():
    given, close = (*SELECT_GLIDE, control(6, 1), control(38, 2)), NULL
    assert heard(unit(), *given).right_us == 4 * 3 * BYTE
    assert heard(unit(), *given, *close).right_us == 6 * 3 * BYTE
    assert heard(unit(), *given, *close, *close).right_us == 6 * 3 * BYTE
    assert heard(unit(), *SELECT_GLIDE, *close).right_us is None


def test_registered_and_other_parameters_are_different():
    assert heard(unit(), control(101, 0), control(100, 0), control(6, 12)).values == {"range": 12}
    assert fates(unit(), control(99, 0), control(98, 0), control(6, 12))[-1] == "no-control"


def test_a_selection_of_the_other_kind_begins_anew():
    assert fates(unit(), control(99, 8), control(100, 0), control(6, 1))[-1] == "half"


def test_a_selection_that_may_have_been_missed_is_not_counted_on():
    """Another parameter may be selected still, and would be given the value."""
    deaf = settling(None)
    missed = (*SELECT_GLIDE, program(1), control(99, 0), control(98, 0))
    assert fates(deaf, *missed, control(6, 1))[-1] == "cannot-tell"
    entry = Arrival(9 * LOADS_US, 9 * LOADS_US + 3 * BYTE, bytes(control(6, 1)))

    def later(*messages):
        now, found = 0, []
        for message in missed:
            found.append(Arrival(now, now + BYTE * len(message), bytes(message)))
            now = found[-1].end_us
        now = 5 * LOADS_US
        for message in messages:
            found.append(Arrival(now, now + BYTE * len(message), bytes(message)))
            now = found[-1].end_us
        return receive(listener_of(deaf), [*found, entry])

    assert later().fates[-1] is Fate.CANNOT_TELL
    assert later().values == {}
    assert later(SELECT_GLIDE[0]).fates[-1] is Fate.CANNOT_TELL
    assert later(SELECT_GLIDE[0], control(100, 0)).fates[-1] is Fate.CANNOT_TELL
    assert later(*SELECT_GLIDE).values == {"glide": 128}
    assert later(control(101, 0), control(100, 0)).values == {"range": 1}


def test_data_entry_without_a_selection():
    assert fates(unit(), control(6, 1)) == ["no-control"]
    assert fates(unit(), control(99, 8), control(6, 1)) == ["prepares", "half"]


def test_a_parameter_of_seven_bits_has_no_fine_part():
    found = heard(unit(), control(101, 0), control(100, 0), control(6, 12), control(38, 5))
    assert (found.fates[-1], found.values) == (Fate.NOT_CONCERNED, {"range": 12})


@pytest.mark.parametrize(
    ("controls", "fate"),
    [("lost", Fate.LOST), ("held", Fate.HELD), ("obeyed", Fate.OBEYED), (None, Fate.CANNOT_TELL)],
)
def test_a_control_change_while_it_loads(controls, fate):
    found = heard(settling(controls), program(1), control(14, 5))
    assert found.fates == (Fate.OBEYED, fate)
    assert found.values == ({"mix": 5} if fate.is_good else {})
    assert found.loading == ((2 * BYTE, 2 * BYTE + LOADS_US),)


@pytest.mark.parametrize(
    ("controls", "right"),
    [("lost", 640 + LOADS_US), ("held", 640 + LOADS_US + APPLIES_US), ("obeyed", 640 + LOADS_US)],
)
def test_when_it_is_right(controls, right):
    assert heard(settling(controls), program(1), control(14, 5)).right_us == right


@pytest.mark.parametrize(("gap", "fate"), [(LOADS_US - 1, "lost"), (LOADS_US, "obeyed")])
def test_it_listens_again_from_the_moment_it_has_loaded(gap, fate):
    assert fates(settling("lost"), program(1), control(14, 5), gap_us=gap)[1] == fate


def test_a_deaf_unit_misses_selections_too():
    one = unit(programs=MSB, settle={"ms": 20, "controls": "lost"})
    found = heard(one, control(0, 3), program(1), control(0, 4), program(2))
    assert (found.fates[2], found.program) == (Fate.LOST, WireProgram(3, 2))
    assert fates(one, program(1), *SELECT_GLIDE)[1:] == ["lost", "lost"]


def test_a_selection_that_may_have_been_missed_leaves_the_bank_open():
    one = unit(programs=MSB, settle={"ms": 20})
    found = heard(one, control(0, 3), program(1), control(0, 4), program(2))
    assert found.fates[2] is Fate.CANNOT_TELL
    assert found.old_bank


def test_a_program_change_while_it_loads_begins_anew():
    found = heard(settling("lost"), program(1), program(2))
    assert found.program == WireProgram(0, 2)
    assert [begin for begin, _ in found.loading] == [2 * BYTE, 4 * BYTE]


def test_what_was_set_before_the_program_is_kept_apart():
    found = heard(unit(), control(14, 5), control(14, 6), program(1), control(102, 1))
    assert (found.before_program, found.values) == ({"mix": 6}, {})


def test_nothing_heard_is_nothing_done():
    found = heard(unit())
    assert (found.fates, found.program, found.right_us, found.values) == ((), None, None, {})


def test_every_fate_is_reached_here():
    lost = fates(settling("lost"), program(1), control(14, 1))
    held = fates(settling("held"), program(1), control(14, 1), program(100), control(6, 1))
    rest = fates(
        unit(control=[CHOICE | {"high": 120}, TIME]),
        control(18, 50), control(18, 121), control(48, 1), control(1, 1), program(1, 9), (0xF8,),
        control(16, 1), control(15, 1),
    )  # fmt: skip
    banks = fates(unit(programs=MSB), control(0, 1))
    unknown = fates(unit(programs=None, receive={"control": False}), program(1), control(14, 1))
    reached = {*lost, *held, *rest, *banks, *unknown}
    assert reached == {fate.value for fate in Fate}


UNITS = [
    Unit(
        id=chart.id,
        chart=chart,
        name=chart.id,
        order=0,
        channel=3,
        sent_on=3,
        settings={one.id: one.factory for one in chart.settings.values()},
        stated=frozenset(),
    )
    for chart in sample_charts().values()
    if chart.listens
]
BYTES = st.integers(0, 127)
NUMBERS = st.sampled_from([0, 6, 16, 17, 32, 38, 48, 49, 98, 99, 100, 101, 120, 127]) | BYTES
MESSAGES = st.one_of(
    st.tuples(st.just(0xC2), BYTES),
    st.tuples(st.just(0xB2), NUMBERS, BYTES),
    st.tuples(st.integers(0x80, 0xEF), BYTES, BYTES),
    st.just((0xF8,)),
    st.just((0xF0, 0xF7)),
)


@given(st.sampled_from(UNITS), st.lists(MESSAGES, max_size=25), st.integers(0, 30_000))
def test_any_messages_are_received(one, messages, gap):
    found = heard(one, *messages, gap_us=gap)
    assert len(found.fates) == len(messages)
    known = one.chart.controls
    for name, value in (*found.values.items(), *found.before_program.items()):
        assert known[name].low <= value <= known[name].high
    assert found.flips.keys() <= known.keys()
    if found.right_us is not None:
        assert found.right_us >= max((end for _, end in found.loading), default=0)
    obeyed = [fate for fate in found.fates if fate in (Fate.OBEYED, Fate.HELD)]
    assert (found.right_us is None) is not bool(obeyed)


@given(st.sampled_from(UNITS), st.lists(MESSAGES, max_size=12), st.integers(1, 10**9))
def test_only_the_distance_in_time_counts(one, messages, later):
    now, then = heard(one, *messages), heard(one, *messages, start_us=later)
    assert (now.fates, now.values, now.program) == (then.fates, then.values, then.program)
    assert [(a + later, b + later) for a, b in now.loading] == list(then.loading)


@given(st.sampled_from(UNITS), st.lists(MESSAGES, max_size=12))
def test_messages_for_another_channel_make_no_difference(one, messages):
    if hears_channel(one, 9):
        return
    listener, own = listener_of(one), list(messages)
    mixed = [message for each in own for message in (each, control(14, 99, 9))]
    arrivals = [Arrival(10_000 * n, 10_000 * n + 640, bytes(data)) for n, data in enumerate(mixed)]
    both, alone = receive(listener, arrivals), receive(listener, arrivals[::2])
    assert both.fates[::2] == alone.fates
    assert (both.values, both.program, both.right_us) == (
        alone.values, alone.program, alone.right_us,
    )  # fmt: skip
