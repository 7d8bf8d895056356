"""The chain of `timing.py` as a general event simulator runs it, written the way SimPy is meant.

One process an output. A message waits out its latency at the head of the queue, which for a queue
with one input and one latency is the same as waiting before it, and takes SimPy fewer events.
"""

from collections.abc import Generator

import simpy

BYTE_US = 320
Message = tuple[int, int, int]
"""When it is ready at the next output, its status byte, its length."""


def play_chain(messages: list[Message], hops: int, *, latency_us: int) -> list[int]:
    """When each message has left the last of `hops` outputs, all of them with running status."""
    env = simpy.Environment()
    queues = [simpy.Store(env) for _ in range(hops + 1)]
    ends: list[int] = []

    def sender() -> Generator[simpy.Event, None, None]:
        for message in messages:
            if message[0] > env.now:
                yield env.timeout(message[0] - env.now)
            queues[0].put(message)

    def output(hop: int) -> Generator[simpy.Event, None, None]:
        last_status = -1
        while True:
            ready, status, length = yield queues[hop].get()
            if ready > env.now:
                yield env.timeout(ready - env.now)
            yield env.timeout(BYTE_US * (length - (status == last_status)))
            last_status = status
            if hop == hops - 1:
                ends.append(env.now)
            else:
                queues[hop + 1].put((env.now + latency_us, status, length))

    env.process(sender())
    for hop in range(hops):
        env.process(output(hop))
    env.run()
    return ends
