import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.midi.any_message import channels, data
from thruline.base.errors import CannotUse
from thruline.midi.message import ControlChange
from thruline.midi.parameters import (
    NOTHING_SELECTED,
    NULL,
    Entered,
    Entry,
    Parameter,
    ParameterKind,
    controls_to_parameter,
    hear,
    held_after,
    parameter_to_controls,
)

BEND_RANGE = Parameter(ParameterKind.REGISTERED, 0)
COARSE_TUNE = Parameter(ParameterKind.REGISTERED, 2)
OWN = Parameter(ParameterKind.NON_REGISTERED, 129)

parameters = st.builds(Parameter, st.sampled_from(ParameterKind), st.integers(0, NULL - 1))


def entered(*pairs: tuple[int, int]) -> list[Entered]:
    """What data entry reaches, for (control, value) pairs on one channel."""
    selection, reached = NOTHING_SELECTED, []
    for control, value in pairs:
        selection, entry = hear(selection, ControlChange(1, control, value))
        reached += [] if entry is None else [entry]
    return reached


def test_the_order_of_sending() -> None:
    sent = parameter_to_controls(2, OWN, value=300)
    assert [(one.control, one.value) for one in sent] == [
        (99, 1), (98, 1), (6, 2), (38, 44), (99, 127), (98, 127),
    ]  # fmt: skip
    assert {one.channel for one in sent} == {2}


def test_registered_parameters_have_their_own_selectors() -> None:
    sent = parameter_to_controls(1, BEND_RANGE, value=256, fine=False, null=False)
    assert [(one.control, one.value) for one in sent] == [(101, 0), (100, 0), (6, 2)]


def test_a_fine_value_cannot_be_sent_coarsely() -> None:
    with pytest.raises(CannotUse, match="the nearest below is 256"):
        parameter_to_controls(1, BEND_RANGE, value=257, fine=False)


@pytest.mark.parametrize("number", [-1, NULL, 16384])
def test_null_is_no_parameter(number: int) -> None:
    with pytest.raises(CannotUse, match="registered parameter"):
        Parameter(ParameterKind.REGISTERED, number)


def test_every_parameter_and_every_value_comes_back() -> None:
    for number in range(NULL):
        for parameter in (Parameter(kind, number) for kind in ParameterKind):
            sent = parameter_to_controls(5, parameter, value=NULL - number)
            assert controls_to_parameter(sent) == (5, parameter, NULL - number)


@given(channels, parameters, data, st.booleans())
def test_coarse_values_come_back_too(
    channel: int, parameter: Parameter, coarse: int, null: bool
) -> None:
    sent = parameter_to_controls(channel, parameter, value=coarse * 128, fine=False, null=null)
    assert controls_to_parameter(sent) == (channel, parameter, coarse * 128)


@pytest.mark.parametrize(
    "pairs",
    [
        [],
        [(6, 2)],
        [(101, 0), (6, 2)],
        [(101, 0), (100, 0)],
        [(101, 0), (100, 0), (38, 2)],
        [(101, 0), (100, 0), (96, 0)],
        [(101, 127), (100, 127), (6, 2)],
        [(101, 0), (100, 0), (6, 2), (100, 1), (6, 2)],
    ],
)
def test_half_a_sequence_is_refused(pairs: list[tuple[int, int]]) -> None:
    with pytest.raises(CannotUse, match="do not set one parameter"):
        controls_to_parameter([ControlChange(1, *pair) for pair in pairs])


def test_a_sequence_over_two_channels_is_refused() -> None:
    sent = parameter_to_controls(1, BEND_RANGE, value=256)
    with pytest.raises(CannotUse, match="on one channel"):
        controls_to_parameter([*sent[:2], ControlChange(2, 6, 2)])


def test_data_entry_reaches_nothing_at_power_up_or_after_null() -> None:
    assert entered((6, 1), (38, 1), (96, 0), (97, 0)) == []
    assert entered((101, 0), (100, 0), (101, 127), (100, 127), (6, 1)) == []


def test_the_last_selection_wins() -> None:
    assert entered((101, 0), (100, 0), (99, 1), (98, 1), (6, 5)) == [Entered(OWN, Entry.COARSE, 5)]


def test_half_a_selection_of_the_other_kind_selects_nothing() -> None:
    assert entered((101, 0), (100, 0), (99, 1), (6, 5)) == []


def test_one_selector_alone_changes_its_half() -> None:
    assert entered((101, 0), (100, 0), (100, 2), (6, 5)) == [Entered(COARSE_TUNE, Entry.COARSE, 5)]


def test_other_controls_are_none_of_its_business() -> None:
    assert entered((101, 0), (100, 0), (7, 3), (6, 5)) == [Entered(BEND_RANGE, Entry.COARSE, 5)]


@pytest.mark.parametrize(
    ("held", "parameter", "entry", "after"),
    [
        (300, OWN, Entry.COARSE, 9 * 128),
        (300, OWN, Entry.FINE, 256 + 9),
        (300, OWN, Entry.UP, 301),
        (300, OWN, Entry.DOWN, 299),
        (300, COARSE_TUNE, Entry.UP, 428),
        (300, COARSE_TUNE, Entry.DOWN, 172),
        (NULL, OWN, Entry.UP, NULL),
        (0, OWN, Entry.DOWN, 0),
        (100, COARSE_TUNE, Entry.DOWN, 0),
    ],
)
def test_what_a_parameter_holds_afterwards(
    held: int, parameter: Parameter, entry: Entry, after: int
) -> None:
    assert held_after(held, Entered(parameter, entry, 9)) == after


@given(st.integers(0, NULL), st.builds(Entered, parameters, st.sampled_from(Entry), data))
def test_a_parameter_holds_14_bits_whatever_comes(held: int, entry: Entered) -> None:
    assert 0 <= held_after(held, entry) <= NULL


@given(st.lists(st.tuples(st.sampled_from([6, 7, 38, *range(96, 102)]), data), max_size=30))
def test_data_entry_never_reaches_null(pairs: list[tuple[int, int]]) -> None:
    assert all(entry.parameter.number < NULL for entry in entered(*pairs))
