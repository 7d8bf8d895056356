"""Seeded networks and traffic for trying the kernel."""

import random
from dataclasses import replace

import numpy as np

from thruline.timing import statuses
from thruline.timing.network import Copy, Feed, Output, Way
from thruline.timing.traffic import traffic

LENGTHS = {0xC: 2, 0xD: 2}
SYSTEM_LENGTHS = {0xF1: 2, 0xF2: 3, 0xF3: 2, 0xF6: 1}
BLOCKS = (
    statuses.CLOCK,
    statuses.REAL_TIME,
    statuses.SYSTEM_EXCLUSIVE,
    statuses.PROGRAM_CHANGES,
    statuses.CONTROL_CHANGES,
    statuses.on_channels(1, 3),
)


def messages(random_, count, *, first_ident=0, real_time=0.1, gap_us=1200, start_us=0):
    """(ready, length, status, ident) rows: bursts on few channels, some system messages."""
    rows, now = [], start_us
    for ident in range(first_ident, first_ident + count):
        if random_.random() < 0.4:
            now += random_.choice([0, 1, 320, 640, random_.randrange(4 * gap_us)])
        kind = random_.random()
        if kind < real_time:
            status, length = random_.choice([0xF8, 0xF8, 0xFA, 0xFE]), 1
        elif kind < real_time + 0.05:
            status, length = 0xF0, random_.randrange(3, 20)
        elif kind < real_time + 0.1:
            status, length = random_.choice(list(SYSTEM_LENGTHS.items()))
        else:
            status = random_.choice([0x90, 0xB0, 0xB0, 0xB2, 0xC0, 0xC1])
            length = LENGTHS.get(status >> 4, 3)
        rows.append((now, length, status, ident))
    return rows


def as_traffic(rows):
    """Reference rows as the kernel takes them."""
    ready, length, status, ident = zip(*rows, strict=True) if rows else ([], [], [], [])
    return traffic(ready, length, status=status, ident=ident)


def output(random_, feeds, sender, *, plain=False):
    """An output with settings at random."""
    return Output(
        feeds=tuple(feeds),
        sender=sender,
        running_status=random_.random() < 0.6,
        refresh_us=None if plain or random_.random() < 0.7 else random_.choice([0, 700, 3000]),
        buffer_bytes=random_.choice([None, None, 24, 64]),
        real_time_first=not plain and random_.random() < 0.5,
    )


def feed(random_, source, *, plain=False):
    """A feed with settings at random."""
    return Feed(
        source=source,
        latency_us=random_.choice([0, 0, 100, 333, 700]),
        way=Way.BYTES if not plain and random_.random() < 0.3 else Way.WHOLE,
        blocks=random_.choice(BLOCKS) if random_.random() < 0.3 else frozenset(),
    )


def chain(seed, *, count=60):
    """A sender and up to eight units in a row."""
    random_ = random.Random(seed)
    plain = seed % 2 == 0
    lines = [output(random_, [], 0, plain=plain)]
    for index in range(random_.randrange(1, 8)):
        if random_.random() < 0.15:
            lines.append(Copy(source=index, delay_us=random_.randrange(4)))
        else:
            lines.append(output(random_, [feed(random_, index, plain=plain)], None, plain=plain))
    return lines, [messages(random_, count, real_time=0 if plain else 0.1)]


def tree(seed, *, count=30, plain=False):
    """Up to six lines, each hearing up to three earlier ones; up to three senders."""
    random_ = random.Random(seed)
    senders = [
        messages(random_, random_.randrange(count), first_ident=1000 * number, real_time=0.15)
        for number in range(random_.randrange(1, 4))
    ]
    lines = [output(random_, [], 0, plain=plain)]
    for index in range(1, random_.randrange(2, 7)):
        if random_.random() < 0.2:
            lines.append(Copy(source=random_.randrange(index), delay_us=random_.randrange(4)))
            continue
        heard = [random_.randrange(index) for _ in range(random_.choice([1, 1, 2, 2, 3]))]
        own = random_.randrange(len(senders)) if random_.random() < 0.4 else None
        feeds = [feed(random_, source, plain=plain) for source in heard]
        lines.append(output(random_, feeds, own, plain=plain))
    places = list(range(len(lines)))
    random_.shuffle(places)
    return renumbered(lines, places), senders


def renumbered(lines, place):
    """The same lines under other numbers, so that sources need not come before listeners."""
    moved = [None] * len(lines)
    for index, line in enumerate(lines):
        if isinstance(line, Copy):
            moved[place[index]] = replace(line, source=place[line.source])
        else:
            feeds = tuple(replace(one, source=place[one.source]) for one in line.feeds)
            moved[place[index]] = replace(line, feeds=feeds)
    return moved


def rows(flow):
    """(ident, start, end, end of every byte) for each message of a flow."""
    cuts = np.add.accumulate(flow.sent_bytes)[:-1]
    every = np.split(flow.every_byte_end_us, cuts) if flow.end_us.size else []
    columns = (flow.ident.tolist(), flow.start_us.tolist(), flow.end_us.tolist())
    return [(*one, tuple(ends.tolist())) for *one, ends in zip(*columns, every, strict=True)]


def lost(flow):
    """(ident, when) for each message that a flow lost."""
    if flow.lost is None:
        return []
    return list(zip(flow.lost.ident.tolist(), flow.lost.at_us.tolist(), strict=True))
