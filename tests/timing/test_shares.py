"""One sending shared out among outputs, held against each output played by itself."""

from hypothesis import given
from hypothesis import strategies as st

from tests.routed import case_of_two_lines
from thruline.timing.play import play
from thruline.timing.run import run_all
from thruline.timing.sending import Item, Purpose, Sending, ready_times
from thruline.timing.shares import batches_of, place_in_table, shares_of, traffic_of
from thruline.timing.tables import tables_of
from thruline.timing.traffic import traffic

CASE = case_of_two_lines()
ALIKE = case_of_two_lines(controller="braeburn-six")
UNITS = ("delay", "echo", None)

ITEMS = st.builds(
    lambda unit, number, pause: Item(
        bytes((0xB2, number, 1)), Purpose.CONTROL, unit=unit, pause_us=pause
    ),
    st.sampled_from(UNITS),
    st.integers(60, 90),
    st.sampled_from((0, 0, 700, 5000)),
)
SENDINGS = st.lists(st.lists(ITEMS, max_size=8), min_size=1, max_size=4)


def by_hand(items):
    """What each unit hears, each output played by itself: no call of what is tested here."""
    hand, roads = CASE.board.hand, CASE.board.roads
    ready = ready_times(items, gap_us=hand.gap_us, running_status=False)
    found = {}
    for unit in ("delay", "echo"):
        own = [n for n, one in enumerate(items) if one.unit in (unit, None)]
        column = traffic(
            [ready[n] for n in own], [3] * len(own), status=[0xB2] * len(own), ident=own
        )
        other = traffic([], [], status=[])
        both = [column, other] if roads.sender_of[unit] == 0 else [other, column]
        flow = play(roads.network, both)[roads.inputs[unit][0]]
        found[unit] = list(
            zip(flow.ident.tolist(), flow.start_us.tolist(), flow.end_us.tolist(), strict=True)
        )
    return found


@given(SENDINGS)
def test_each_unit_hears_its_own_output_and_nothing_else(rows):
    board = CASE.board
    sendings = [Sending(tuple(items)) for items in rows]
    runs = run_all(board.roads, board.listeners, sendings=sendings, hand=board.hand)
    for items, run in zip(rows, runs, strict=True):
        expected = by_hand(items)
        for unit in ("delay", "echo"):
            heard = [(h.place, h.arrival.start_us, h.arrival.end_us) for h in run.heard[unit]]
            assert heard == expected[unit]
            assert [h.arrival.data for h in run.heard[unit]] == [
                items[place].data for place, *_ in expected[unit]
            ]


@given(SENDINGS)
def test_every_message_leaves_by_the_outputs_that_it_is_for(rows):
    roads, hand = CASE.board.roads, CASE.board.hand
    sendings = [Sending(tuple(items)) for items in rows]
    tables = tables_of(sendings, gap_us=hand.gap_us, running_status=False)
    batches = batches_of(
        roads, rows, ready_us=tables.ready_us, length=tables.length, status=tables.status
    )
    counts = [int((one.length > 0).sum()) for one in batches]
    items = [item for row in rows for item in row]
    assert counts == [int(own.sum()) for own in shares_of(roads, items)]
    assert sum(counts) == len(items) + sum(item.unit is None for item in items)


def test_a_message_is_called_by_its_place_whoever_sends_it():
    items = [Item(bytes((0xB2, 70, 1)), Purpose.CONTROL, unit=unit) for unit in UNITS]
    first, second = traffic_of(CASE.board.roads, items, [0, 1000, 2000])
    assert first.ident.tolist() == [0, 2]
    assert second.ident.tolist() == [1, 2]
    assert place_in_table(second.ident + 6, 6).tolist() == [1, 2]


def test_a_controller_whose_outputs_are_alike_is_one_sender():
    items = [Item(bytes((0xB2, 70, 1)), Purpose.CONTROL, unit=unit) for unit in UNITS]
    (only,) = traffic_of(ALIKE.board.roads, items, [0, 1000, 2000])
    assert only.ident.tolist() == [0, 1, 2]
