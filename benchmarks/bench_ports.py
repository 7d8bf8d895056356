"""Real ports: is anything lost at full line rate, what do sending and asking cost, are gaps kept?

    python benchmarks/bench_ports.py [--quick]

Starts a JACK server of its own. Four senders, each a program of its own, fill four lines at the
speed of a MIDI line; a session listens to all four and writes its log meanwhile.
"""

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np
import rtmidi

from thruline.audit.capture import Came, caught
from thruline.bench.guard import Guarded
from thruline.bench.listen import Session
from thruline.bench.plugged import HeldInput
from thruline.bench.send import Planned, play
from thruline.bench.several import Way, play_parted
from thruline.outside.capture_files import LogFile, read_capture_file
from thruline.outside.midi_ports import SystemPorts
from thruline.outside.wall_clock import SystemClock

QUICK = "--quick" in sys.argv[1:]
LINES, MESSAGES = 4, 1_000 if QUICK else 25_000
CLOCK = SystemClock()

SPEAKER = """
import sys, time, rtmidi
out = rtmidi.MidiOut(rtmidi.API_UNIX_JACK, name="speaker" + sys.argv[1])
out.open_virtual_port("line")
sys.stdin.readline()
start = time.monotonic_ns()
for place in range(int(sys.argv[2])):
    due = start + place * 960_000
    while (left := due - time.monotonic_ns()) > 0:
        if left > 400_000:
            time.sleep((left - 300_000) / 1e9)
    out.send_message([0xB0 | place % 16, place >> 7 & 0x7F, place & 0x7F])
time.sleep(0.5)
"""


def listening(folder: Path) -> None:
    """Four full lines, one session, everything in the log, in order."""
    command = [sys.executable, "-c", SPEAKER]
    speakers = [
        subprocess.Popen(  # noqa: S603 - our own script, by this Python
            [*command, str(n), str(MESSAGES)], stdin=subprocess.PIPE, text=True
        )
        for n in range(LINES)
    ]
    time.sleep(2)
    ports = SystemPorts(CLOCK)
    names = [name for name in ports.inputs() if name.startswith("speaker")]
    session = Session([HeldInput(ports, name, CLOCK) for name in names], CLOCK, lines=names)
    session.keep(LogFile(folder / "log"))
    for one in speakers:
        one.stdin.write("go\n")
        one.stdin.flush()
    begin, used, count = time.perf_counter(), time.process_time(), 0
    while any(one.poll() is None for one in speakers):
        entries = session.turn()
        count += sum(isinstance(one, Came) for one in entries)
        if not entries:
            session.rest()
    session.close()
    took = time.perf_counter() - begin
    lines: dict[int, list[int]] = {}
    for one in caught(read_capture_file(folder / "log")):
        lines.setdefault(one.line, []).append(one.raw[1] << 7 | one.raw[2])
    wanted = [place & 0x3FFF for place in range(MESSAGES)]
    whole = all(found == wanted for found in lines.values())
    print(
        f"listening: {count} of {LINES * MESSAGES} messages on {len(lines)} lines in {took:.1f} s, "
        f"complete and in order in the log: {whole}; "
        f"processor {100 * (time.process_time() - used) / took:.0f} %"
    )


def sending() -> None:
    """The cost of one message beside the bare library's, and the gaps."""
    ear = rtmidi.MidiIn(rtmidi.API_UNIX_JACK, name="ear", queue_size_limit=1 << 16)
    ear.open_virtual_port("in")
    ports = SystemPorts(CLOCK)
    name = next(one for one in ports.outputs() if one.startswith("ear"))
    ours = Guarded(ports.open_output(name))
    bare = rtmidi.MidiOut(rtmidi.API_UNIX_JACK, name="bare")
    bare.open_port(bare.get_ports().index(name))
    data, times = bytes((0xB0, 7, 64)), {"ours": [], "bare": []}
    for turn in range(600 if QUICK else 6_000):
        send = (ours.send, bare.send_message)[turn % 2]
        CLOCK.wait_until(CLOCK.now_us() + 960)
        begin = time.perf_counter_ns()
        send(data)
        times["bare" if turn % 2 else "ours"].append(time.perf_counter_ns() - begin)
    for share in (50, 99):
        mine, theirs = (np.percentile(times[one], share) / 1000 for one in ("ours", "bare"))
        slot = (960 + mine) / (960 + theirs)
        print(
            f"sending p{share}: ours {mine:.1f} us, bare library {theirs:.1f} us; "
            f"with the 960 us that the line needs for it, a ratio of {slot:.3f}"
        )
    asking(ours)
    plan = [Planned(place * 5_000, data) for place in range(600)]
    sent = play(plan, [ours], CLOCK)
    told("gaps of 5 ms", np.diff([one.at_us for one in sent]) - 5_000)
    told("a bare loop that only watches the clock", watched(len(plan)))


def asking(port: Guarded) -> None:
    """What it costs to see that a port is there, with few ports and with many."""
    boxes = []
    for count in (1, 20):
        while len(boxes) < count - 1:
            boxes.append(rtmidi.MidiIn(rtmidi.API_UNIX_JACK, name=f"box{len(boxes)}"))
            boxes[-1].open_virtual_port("in")
        port.look()
        looks, presets = [], []
        for _ in range(200):
            begin = time.perf_counter_ns()
            port.look()
            looks.append(time.perf_counter_ns() - begin)
        plan = [Planned(place * 960, bytes((0xB0, 7, place))) for place in range(20)]
        for _ in range(20):
            begin = time.perf_counter_ns()
            play_parted(plan, [Way(port)], CLOCK, lands=False)
            presets.append(time.perf_counter_ns() - begin)
        begin, used = time.perf_counter(), time.process_time()
        port.land()
        middle, most = np.percentile(looks, [50, 99]) / 1000
        print(
            f"looking, {count} ports: p50 {middle:.0f} us, p99 {most:.0f} us; 20 messages with a "
            f"look before and after {np.median(presets) / (19 * 960_000):.3f} of their time; "
            f"until it has landed {time.perf_counter() - begin:.3f} s, of it processor "
            f"{1000 * (time.process_time() - used):.1f} ms"
        )
    for one in boxes:
        one.close_port()
        one.delete()


def told(what: str, late: np.ndarray) -> None:
    """How much longer than planned gaps were, us."""
    middle, most = np.percentile(late, [50, 99])
    print(f"{what}: longer by p50 {middle:.0f} us, p99 {most:.0f} us; shortest {late.min():.0f} us")


def watched(count: int) -> np.ndarray:
    """The same gaps without anything to send: what this computer is able to, and how busy it is."""
    start_ns, came = time.monotonic_ns(), []
    for place in range(count):
        due_ns = start_ns + place * 5_000_000
        while (now_ns := time.monotonic_ns()) < due_ns:
            pass
        start_ns += now_ns - due_ns
        came.append(now_ns)
    return np.diff(came) / 1000 - 5_000


def main() -> None:
    """A server, then both."""
    os.environ["JACK_DEFAULT_SERVER"] = server = f"bench{os.getpid()}"
    os.environ["JACK_NO_START_SERVER"] = "1"
    command = ["jackd", "-n", server, "-r", "-S", "-d", "dummy", "-r", "48000", "-p", "128"]
    with tempfile.TemporaryDirectory() as folder, Path(folder, "jackd").open("w") as log:
        running = subprocess.Popen(command, stdout=log, stderr=log)  # noqa: S603 - spelled out above
        try:
            time.sleep(1.5)
            listening(Path(folder))
            sending()
        finally:
            running.terminate()
            running.wait(10)


if __name__ == "__main__":
    main()
