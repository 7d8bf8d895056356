import random

import numpy as np
import pytest

from tests.timing import cases
from thruline.base.errors import CannotUse
from thruline.timing.batch import NEVER_US, ends, of_sending, play_many
from thruline.timing.network import Copy, Feed, Output, network
from thruline.timing.play import play
from thruline.timing.statuses import CONTROL_CHANGES
from thruline.timing.traffic import batch, traffic

SENDINGS = 4


def table(random_, rows_of_each):
    """A batch with its messages spread over more columns than they need, in any order."""
    width = max(map(len, rows_of_each)) + random_.randrange(3)
    ready, length, status = (np.zeros((len(rows_of_each), width), np.int64) for _ in range(3))
    for sending, rows in enumerate(rows_of_each):
        places = random_.sample(range(width), len(rows))
        if random_.random() < 0.5:
            places.sort()
        for place, row in zip(places, rows, strict=True):
            ready[sending, place], length[sending, place], status[sending, place] = row[:3]
    return batch(ready, length, status=status)


def one_sending(some, sending, first):
    """One row of a batch as the traffic of a single sending, named as a batch names it."""
    places = np.flatnonzero(some.length[sending])
    width = some.length.shape[1]
    return traffic(
        some.ready_us[sending][places],
        some.length[sending][places],
        status=some.status[sending][places],
        ident=first + sending * width + places,
    )


def case(seed):
    """Lines of a seeded chain or tree and a batch for each of its senders."""
    random_ = random.Random(seed)
    plain = seed % 2 == 0
    lines, senders = cases.tree(seed, plain=plain) if seed % 3 else cases.chain(seed)
    real_time = 0 if plain else 0.1
    batches = []
    for _ in senders:
        each = [
            cases.messages(
                random_,
                random_.randrange(20),
                real_time=real_time,
                start_us=random_.randrange(-2000, 2000),
            )
            for _ in range(SENDINGS)
        ]
        batches.append(table(random_, each))
    return network(lines), batches


@pytest.mark.parametrize("seed", range(60))
def test_a_batch_is_each_of_its_sendings_alone(seed):
    lines, batches = case(seed)
    played = play_many(lines, batches)
    for sending in range(SENDINGS):
        firsts = [piece.start for piece in played.sent.pieces]
        alone = play(
            lines, [one_sending(b, sending, f) for b, f in zip(batches, firsts, strict=True)]
        )
        assert played.might_lose[sending] == any(flow.lost is not None for flow in alone)
        if not played.might_lose[sending]:
            check_sending(played, sending, alone)


def check_sending(played, sending, alone):
    for line, flow in enumerate(alone):
        share, many = of_sending(played, line, sending), played.flows[line]
        begin = sending * played.pitch_us
        assert many.ident[share].tolist() == flow.ident.tolist()
        assert (many.end_us[share] - begin).tolist() == flow.end_us.tolist()
        assert (many.start_us[share] - begin).tolist() == flow.start_us.tolist()
        assert many.sent_bytes[share].tolist() == flow.sent_bytes.tolist()


@pytest.mark.parametrize("seed", range(0, 60, 5))
def test_ends_are_the_first_of_each_message(seed):
    lines, batches = case(seed)
    played = play_many(lines, batches)
    for line, flow in enumerate(played.flows):
        for sender, some in enumerate(batches):
            found = np.full(some.length.size, NEVER_US)
            first = played.sent.pieces[sender].start
            for ident, end in zip(
                flow.ident.tolist()[::-1], flow.end_us.tolist()[::-1], strict=True
            ):
                if first <= ident < first + found.size:
                    found[ident - first] = (
                        end - (ident - first) // some.length.shape[1] * played.pitch_us
                    )
            assert ends(played, line, sender=sender).ravel().tolist() == found.tolist()


def test_ends_of_a_blocked_message_are_never():
    lines = network([Output(sender=0), Output(feeds=(Feed(source=0, blocks=CONTROL_CHANGES),))])
    some = batch([[0, 0], [0, 0]], [[3, 2], [2, 0]], status=[[0xB0, 0xC0], [0xC0, 0]])
    played = play_many(lines, [some])
    assert ends(played, 0).tolist() == [[960, 1600], [640, NEVER_US]]
    assert ends(played, 1).tolist() == [[NEVER_US, 1600 + 640], [1280, NEVER_US]]


def test_running_status_ends_with_each_sending():
    some = batch([[0, 0]] * 3, [[3, 3]] * 3, status=[[0xB0, 0xB0]] * 3)
    played = play_many(network([Output(sender=0, running_status=True)]), [some])
    assert played.flows[0].sent_bytes.tolist() == [3, 2] * 3


def test_a_short_buffer_is_told_by_sending():
    some = batch([[0, 0], [0, 960]], [[3, 3]] * 2, status=[[0xB0, 0xB1]] * 2)
    lines = network([Output(sender=0, buffer_bytes=4), Copy(source=0)])
    assert play_many(lines, [some]).might_lose.tolist() == [True, False]


def test_no_sendings_are_no_trouble():
    empty = batch(np.zeros((0, 5)), np.zeros((0, 5)), status=np.zeros((0, 5)))
    played = play_many(network([Output(sender=0)]), [empty])
    assert ends(played, 0).shape == (0, 5)
    assert play_many(network([Output()]), []).might_lose.size == 0


def test_senders_must_have_the_same_number_of_sendings():
    one, two = (batch([[0]] * n, [[3]] * n, status=[[0xB0]] * n) for n in (1, 2))
    with pytest.raises(CannotUse, match="different numbers of sendings"):
        play_many(network([Output(sender=0), Output(sender=1)]), [one, two])


def test_sendings_that_last_too_long_together_are_refused():
    far = batch([[1 << 52]] * 600, [[3]] * 600, status=[[0xB0]] * 600)
    with pytest.raises(CannotUse, match="too long"):
        play_many(network([Output(sender=0)]), [far])
