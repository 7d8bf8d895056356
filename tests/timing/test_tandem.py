import random

import numpy as np
import pytest

from tests.timing import cases, reference
from thruline.timing import queues, tandem
from thruline.timing.network import Copy, Feed, Output, Way, network
from thruline.timing.play import play
from thruline.timing.statuses import CLOCK, PROGRAM_CHANGES


@pytest.fixture(params=[7, 16_000])
def block(request, monkeypatch):
    monkeypatch.setattr(queues, "BLOCK", request.param)
    monkeypatch.setattr(tandem, "BLOCK", request.param)


def long_chain(seed, hops):
    """Units in a row, some of them copies, and traffic of a few lengths without real time."""
    random_ = random.Random(seed)
    lines = [Output(sender=0, running_status=seed % 2 == 0)]
    for index in range(hops):
        feed = Feed(source=index, latency_us=random_.randrange(500))
        lines.append(Output(feeds=(feed,), running_status=seed % 2 == 0))
        if random_.random() < 0.2:
            lines[-1] = Copy(source=index, delay_us=random_.randrange(5))
    return lines, [cases.messages(random_, 60, real_time=0)]


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("many", [0, 4000])
def test_a_long_chain_is_as_the_event_loop_has_it(seed, many, block, monkeypatch):
    monkeypatch.setattr(tandem, "MANY", many)
    lines, senders = long_chain(seed, 14)
    flows = play(network(lines), [cases.as_traffic(rows) for rows in senders])
    for tape, flow in zip(reference.play(lines, senders), flows, strict=True):
        assert cases.rows(flow) == tape.rows()


@pytest.mark.parametrize("seed", range(6))
def test_both_ways_fill_the_same_table(seed, block):
    lines, senders = long_chain(seed, 9)
    net = network(lines)
    leader = play(net, [cases.as_traffic(rows) for rows in senders])[0]
    stages = tandem.stages(net, 0, leader)
    lengths = tandem.lengths_on_the_wire(leader)
    by_hop, by_length = (np.empty((len(stages), leader.end_us.size), np.int64) for _ in range(2))
    tandem._hop_by_hop(by_hop, stages, leader)
    tandem._length_by_length(by_length, stages, leader=leader, lengths=lengths)
    assert by_hop.tolist() == by_length.tolist()


def followers(listener, kinds=((3, 0xB0), (1, 0xF8)), first=None):
    """Which lines follow line 0 when line 1 listens to it, line 2 to line 1."""
    lines = [first or Output(sender=0), listener, Output(feeds=(Feed(source=1),))]
    rows = [(0, length, status, n) for n, (length, status) in enumerate(kinds)]
    net = network(lines)
    flow = play(net, [cases.as_traffic(rows)] * 2)[0]
    return [stage.line for stage in tandem.stages(net, 0, flow)]


def test_who_passes_on_everything_follows():
    assert followers(Output(feeds=(Feed(source=0, latency_us=5),))) == [1, 2]
    assert followers(Copy(source=0)) == [1, 2]
    assert followers(Output(feeds=(Feed(source=0, blocks=PROGRAM_CHANGES),))) == [1, 2]


@pytest.mark.parametrize(
    "listener",
    [
        Output(feeds=(Feed(source=0, blocks=CLOCK),)),
        Output(feeds=(Feed(source=0, way=Way.BYTES),)),
        Output(feeds=(Feed(source=0), Feed(source=0))),
        Output(feeds=(Feed(source=0),), sender=1),
        Output(feeds=(Feed(source=0),), running_status=True),
        Output(feeds=(Feed(source=0),), refresh_us=5),
        Output(feeds=(Feed(source=0),), real_time_first=True),
    ],
)
def test_who_changes_something_does_not_follow(listener):
    assert followers(listener) == []


def test_a_leader_that_refreshes_status_has_no_followers():
    first = Output(sender=0, running_status=True, refresh_us=5)
    assert followers(Output(feeds=(Feed(source=0),), running_status=True), first=first) == []


def test_very_long_messages_are_not_counted_by_length():
    flow = play(network([Output(sender=0)]), [cases.as_traffic([(0, 5000, 0xF0, 0)])])[0]
    assert tandem.lengths_on_the_wire(flow) == []
