"""How fast lines are played: message-hops a second, and the ratio to SimPy in the same process.

    python benchmarks/timing.py            a few minutes; SimPy's rate at 1e5 x 16 is carried over
    python benchmarks/timing.py --full     SimPy really plays 1e6 x 16 as well (a minute and more)
    python benchmarks/timing.py --quick    nothing above 1e5 messages

A chain: one sender, then units that pass on whole messages 100 us after they have received them,
every output with running status. Every time is processor time of this one thread, the best of
several runs, since other work on the machine only ever adds. Before anything is timed, both
programs must agree to the microsecond.
"""

import argparse
import time
from collections.abc import Callable

import numpy as np
from simpy_peer import play_chain

from thruline.timing.batch import ends, play_many
from thruline.timing.network import Feed, Network, Output, network
from thruline.timing.play import play
from thruline.timing.traffic import Batch, Traffic, batch, traffic

LATENCY_US = 100
HOPS = (1, 2, 4, 8, 16)
SEED = 7


def columns(count: int, seed: int, load: float = 0.8) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Times, lengths and status bytes of a busy line.

    75 % control changes, 15 % program changes, 10 % notes, on 16 channels, in bursts of 20 that
    use `load` of what a line without running status carries.
    """
    chance = np.random.default_rng(seed)
    kind = chance.choice(3, count, p=(0.75, 0.15, 0.10))
    status = np.array((0xB0, 0xC0, 0x90))[kind] + chance.integers(0, 16, count)
    length = np.array((3, 2, 3))[kind]
    bursts = count // 20 + 1
    begins = np.cumsum(chance.exponential(20 * 2.85 * 320 / load, bursts)).astype(np.int64)
    return np.repeat(begins, 20)[:count], length, status


def chain(hops: int, buffer_bytes: int | None = None) -> Network:
    """A sender's output and the units behind it."""
    first = Output(sender=0, running_status=True, buffer_bytes=buffer_bytes)
    later = [
        Output(
            feeds=(Feed(source=source, latency_us=LATENCY_US),),
            running_status=True,
            buffer_bytes=buffer_bytes,
        )
        for source in range(hops - 1)
    ]
    return network([first, *later])


def seconds(work: Callable[[], object], *, runs: int) -> float:
    """The best of several runs; short work is done several times a run, to outweigh the clock."""
    begin = time.process_time()
    work()
    repeats = max(1, int(0.002 / max(1e-6, time.process_time() - begin)))
    best = float("inf")
    for _ in range(runs):
        begin = time.process_time()
        for _ in range(repeats):
            result = work()
            del result
        best = min(best, (time.process_time() - begin) / repeats)
    return best


def for_simpy(some: Traffic, count: int) -> list[tuple[int, int, int]]:
    """The first messages as plain tuples."""
    parts = (some.ready_us[:count], some.status[:count], some.length[:count])
    return list(zip(*(part.tolist() for part in parts), strict=True))


def agree(hops: int = 16, count: int = 2000) -> None:
    """Both programs give the same times, or nothing here is worth timing."""
    some = traffic(*columns(count, SEED)[:2], status=columns(count, SEED)[2])
    ours = play(chain(hops), [some])[-1].end_us.tolist()
    assert ours == play_chain(for_simpy(some, count), hops, latency_us=LATENCY_US)


def simpy_rate(count: int, hops: int, *, runs: int = 1) -> float:
    """SimPy's message-hops a second."""
    ready, length, status = columns(count, SEED)
    messages = for_simpy(traffic(ready, length, status=status), count)
    took = seconds(lambda: play_chain(messages, hops, latency_us=LATENCY_US), runs=runs)
    return count * hops / took


def chains(sizes: tuple[int, ...], peers: dict[tuple[int, int], float]) -> None:
    """The table of chains. `peers` holds SimPy's measured rates; the nearest is carried over."""
    print("messages hops   M message-hops/s    ns each    SimPy M/s      ratio")
    for count in sizes:
        ready, length, status = columns(count, SEED)
        some = traffic(ready, length, status=status)
        for hops in HOPS:
            lines = chain(hops)
            runs = max(3, min(100, 20_000_000 // (count * hops)))
            took = seconds(lambda lines=lines, some=some: play(lines, [some]), runs=runs)
            rate = count * hops / took
            measured = (count, hops) in peers
            near = min(peers, key=lambda key: (abs(np.log(key[0] / count)), abs(key[1] - hops)))
            peer = peers[near]
            shown = f"{peer / 1e6:.3f} " if measured else f"({peer / 1e6:.3f})"
            print(
                f"{count:8.0e} {hops:4d} {rate / 1e6:18.1f} {1e9 / rate:10.2f} {shown:>12} "
                f"{rate / peer:10.0f}",
                flush=True,
            )


def sendings(count: int, width: int) -> Batch:
    """Sendings as presets make them: all messages ready at once, a few messages a unit."""
    chance = np.random.default_rng(SEED)
    program = chance.random((count, width)) < 0.2
    status = np.where(program, 0xC0, 0xB0) + chance.integers(0, 8, (count, width))
    return batch(np.zeros((count, width), np.int64), np.where(program, 2, 3), status=status)


def batches() -> None:
    """Whole batches: what a proof of a rig asks for."""
    print("\nsendings messages lines  buffers      play_many   and all ends as tables")
    for count, width in ((128, 60), (16_256, 100)):
        rows = sendings(count, width)
        for room in (None, 512):
            lines = chain(16, room)
            runs = 50 if count < 1000 else 10

            def tables(lines: Network = lines, rows: Batch = rows) -> list[np.ndarray]:
                played = play_many(lines, [rows])
                return [ends(played, line) for line in range(16)]

            one = seconds(lambda lines=lines, rows=rows: play_many(lines, [rows]), runs=runs)
            both = seconds(tables, runs=runs)
            print(
                f"{count:8d} {width:8d} {16:5d} {room or 'endless':>8} {one * 1e3:11.2f} ms "
                f"{both * 1e3:17.2f} ms",
                flush=True,
            )


def main() -> None:
    """Measure and print."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--full", action="store_true", help="let SimPy play 1e6 x 16 too")
    words.add_argument("--quick", action="store_true", help="nothing above 1e5 messages")
    asked = words.parse_args()
    agree()
    peers = {(1000, hops): simpy_rate(1000, hops, runs=20) for hops in HOPS}
    peers |= {(10_000, hops): simpy_rate(10_000, hops, runs=3) for hops in HOPS}
    if not asked.quick:
        peers[100_000, 16] = simpy_rate(100_000, 16)
    if asked.full:
        peers[1_000_000, 16] = simpy_rate(1_000_000, 16)
    sizes = (1000, 10_000, 100_000)
    chains(sizes if asked.quick else (*sizes, 1_000_000, 10_000_000), peers)
    batches()


if __name__ == "__main__":
    main()
