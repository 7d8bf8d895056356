"""Ports that go in the middle, rubbish and floods on the wire, disks that are full."""

import errno
import io

import pytest

from tests.cli.running import ran
from tests.outside.library import JACK, Library, system_of
from tests.samples.reading import ORCHARD
from tests.wires.in_memory import Script, wired
from thruline.outside.capture_files import LogFile, read_capture_file

DUMP = (bytes.fromhex("F07D03010203040571F7"), bytes.fromhex("F07D03010203040670F7"))


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    return tmp_path


def speaks(wires, name, *messages):
    out = wires.open_output(name)
    for one in messages:
        out.send(one)


def answers(monkeypatch, *said):
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{one}\n" for one in said)))


@pytest.fixture
def full_disk(monkeypatch):
    """A log whose disk is full once something was added so many times, the head among them."""

    def fills(after):
        added = LogFile.add
        count = iter(range(1000))

        def add(log, rows):
            if next(count) >= after:
                log._text.write = no_room
            added(log, rows)

        monkeypatch.setattr(LogFile, "add", add)

    def no_room(_):
        raise OSError(errno.ENOSPC, "No space left on device")

    return fills


# --- ports that go ---


@pytest.mark.parametrize("way", [(), ("--step",)])
def test_send_says_which_port_has_gone(capsys, monkeypatch, way):
    clock, wires = wired(monkeypatch, "send", "left", "right")
    answers(monkeypatch, *["yes"] * 40)
    clock.at(1_000, lambda: wires.unplug("right"))
    done = ran(capsys, "send", ORCHARD, 7, "--port", "left", "--port", "right", "--yes", *way)
    assert done.code == 3
    assert 'port "right" is gone; plug it in again and repeat this' in done.err


class Person:
    """Answers what is asked, and does something with the boxes before she answers."""

    def __init__(self, *answers):
        self.answers = list(answers)

    def readline(self):
        answer, deed = self.answers.pop(0) if self.answers else ("", None)
        if deed is not None:
            deed()
        return f"{answer}\n"


def boxed(monkeypatch, *names):
    """A library that says nothing when a box is pulled out, and a clock, for `send`."""
    library, clock = Library(JACK, *names), Script()
    ports = system_of(monkeypatch, clock, library)
    monkeypatch.setattr("thruline.wiring.system_ports", lambda _: ports)
    monkeypatch.setattr("thruline.cli.commands.send.wall_clock", lambda: clock)
    return library, clock


def test_step_tells_what_was_pulled_while_it_asked_and_goes_on(capsys, monkeypatch):
    library, clock = boxed(monkeypatch, "left", "right")
    left, right = library.boxes

    def pull():
        library.unplug(right)
        clock.now += 50_000

    def put_back():
        clock.now += 5_000_000
        library.plug_in(right)

    said = [("yes", None), ("yes", pull), ("again", put_back), *[("yes", None)] * 40]
    monkeypatch.setattr("sys.stdin", Person(*said))
    done = ran(capsys, "send", ORCHARD, 7, "--step", "--port", "left", "--port", "right")
    assert done.code in (0, 1)
    assert done.err.count('port "right:midi" is gone; plug it in again') == 1
    assert "went nothing for" in done.err
    assert right.got == left.got


def test_step_goes_on_with_what_came_back_while_it_asked(capsys, monkeypatch):
    library, clock = boxed(monkeypatch, "left", "right")
    left, right = library.boxes

    def pull_and_put_back():
        clock.now += 5_000_000
        library.unplug(right)
        library.plug_in(right)

    monkeypatch.setattr("sys.stdin", Person(*[("yes", pull_and_put_back)] * 40))
    done = ran(capsys, "send", ORCHARD, 7, "--step", "--port", "left", "--port", "right")
    assert done.code in (0, 1)
    assert "is gone" not in done.err
    assert right.got == left.got != []


def test_keys_tell_what_was_pulled_between_two_of_them(capsys, monkeypatch):
    library, clock = boxed(monkeypatch, "left")
    keys = iter("++-q")

    def key():
        clock.now += 100_000
        pressed = next(keys)
        if pressed == "q":
            library.unplug(library.boxes[0])
        return pressed

    monkeypatch.setattr("click.getchar", key)
    done = ran(capsys, "send", ORCHARD, "Swell", "--port", "left", "--by-keyboard", "--yes")
    assert (done.code, 'port "left:midi" is gone' in done.err) == (3, True)


def test_a_sweep_whose_port_goes(capsys, monkeypatch):
    clock, wires = wired(monkeypatch, "send", "left")
    clock.at(500_000, lambda: wires.unplug("left"))
    done = ran(capsys, "send", ORCHARD, "Swell", "--port", "left", "--yes")
    assert (done.code, 'port "left" is gone' in done.err) == (3, True)


def test_clock_whose_port_goes(capsys, monkeypatch):
    clock, wires = wired(monkeypatch, "clock", "left")
    clock.at(500_000, lambda: wires.unplug("left"))
    done = ran(capsys, "clock", "--out", "left")
    assert (done.code, 'port "left" is gone' in done.err) == (3, True)


def test_listen_goes_on_and_the_log_is_whole(here, capsys, monkeypatch):
    clock, wires = wired(monkeypatch, "listen", "left", "right")
    clock.at(100_000, lambda: speaks(wires, "right", b"\xc2\x33", b"\xf0\x7d\x01"))
    clock.at(200_000, lambda: wires.unplug("right"))
    clock.at(300_000, lambda: speaks(wires, "left", b"\xc1\x01"))
    clock.at(400_000, lambda: wires.plug_in("right"))
    clock.at(900_000, lambda: speaks(wires, "right", b"\xc2\x34"))
    done = ran(capsys, "listen", ORCHARD, "--port", "left", "--port", "right", "--for", 2,
               "--log", "log")  # fmt: skip
    assert done.code == 0
    assert 'port "right" is gone' in done.out
    assert 'port "right" is back' in done.out
    assert done.out.count("MALFORMED") == 1
    assert ran(capsys, "listen", ORCHARD, "--replay", "log").out == done.out


def test_audit_tells_at_once_that_a_port_has_gone(capsys, monkeypatch):
    clock, wires = wired(monkeypatch, "audit", "left")
    clock.at(100_000, lambda: speaks(wires, "left", b"\xca\x00"))
    clock.at(900_000, lambda: wires.unplug("left"))
    done = ran(capsys, "audit", ORCHARD, "--port", "feet.midi-out-1=left", "--patience", "1")
    assert done.code == 1
    rows = done.err.splitlines()
    gone = next(place for place, row in enumerate(rows) if 'port "left" is gone' in row)
    assert sum(row.startswith("now: ") for row in rows[:gone]) == 2, "while the second is asked for"
    assert "not pressed" in done.out


@pytest.mark.parametrize("came", [DUMP[:1], (*DUMP[:1], DUMP[1][:4]), ()])
def test_half_a_memory_is_not_kept_when_the_port_goes(here, capsys, monkeypatch, came):
    clock, wires = wired(monkeypatch, "backup", "left")
    clock.at(100_000, lambda: speaks(wires, "left", *came))
    clock.at(200_000, lambda: wires.unplug("left"))
    done = ran(capsys, "backup", ORCHARD, "delay", "--port", "left", "--name", "a")
    assert done.code == 3
    assert 'port "left" went away in the middle' in done.err
    assert not (here / "workshop").exists()


def test_nobody_is_not_what_is_said_when_the_port_goes(capsys, monkeypatch):
    clock, wires = wired(monkeypatch, "identify", "left", "back")
    clock.at(10_000, lambda: wires.unplug("back"))
    done = ran(capsys, "identify", ORCHARD, "--port", "left", "--back", "back")
    assert (done.code, done.out) == (3, "")
    assert 'port "back" went away' in done.err


def test_restore_says_how_much_the_unit_has(here, capsys, monkeypatch):
    (here / "a.syx").write_bytes(b"".join(DUMP))
    ran(capsys, "backup", ORCHARD, "delay", "--replay", "a.syx", "--name", "a")
    clock, wires = wired(monkeypatch, "restore", "left")
    answers(monkeypatch, "delay")
    clock.at(50_000, lambda: wires.unplug("left"))
    done = ran(capsys, "restore", ORCHARD, "delay", "a", "--port", "left")
    assert done.code == 3
    assert "1 of 2 messages were sent, so the memory of delay is half old" in done.err


def test_learning_tells_that_a_port_has_gone(here, capsys, monkeypatch):
    clock, wires = wired(monkeypatch, "learn", "left")
    answers(monkeypatch, "1 Open", "2 Close")
    clock.at(100_000, lambda: speaks(wires, "left", b"\xc2\x01"))
    clock.at(900_000, lambda: wires.unplug("left"))
    done = ran(capsys, "learn", "new", "--port", "left")
    assert 'port "left" is gone' in done.err
    assert (done.code, (here / "new.rig.toml").exists()) == (0, True)


# --- rubbish and floods ---


def test_rubbish_on_the_wire_is_counted_and_kept(here, capsys, monkeypatch):
    clock, wires = wired(monkeypatch, "listen", "left")
    rubbish = [bytes((one,)) for one in (0x33, 0xF4, 0xB2, 0x34, 0xC2, 0x05, 0xF7, 0x90)]
    clock.at(100_000, lambda: speaks(wires, "left", *rubbish))
    clock.at(200_000, lambda: speaks(wires, "left", b"\xc2\x33"))
    told = ran(capsys, "listen", "--port", "left", "--for", 1, "--log", "log", "--json").json
    kinds = [one["kind"] for one in told["came"]]
    assert kinds.count("malformed") >= 4
    assert kinds.count("program") == 2
    kept = b"".join(one.data for one in read_capture_file(here / "log").entries)
    assert kept == b"".join([*rubbish, b"\xc2\x33"])


def test_a_flood_is_logged_whole(here, capsys, monkeypatch):
    clock, wires = wired(monkeypatch, "listen", "left", "right")
    flood = [bytes((0xB0, count % 128, count // 128 % 128)) for count in range(4_000)]
    for name in ("left", "right"):
        clock.at(100_000, lambda name=name: speaks(wires, name, *flood))
    done = ran(capsys, "listen", "--port", "left", "--port", "right", "--for", 1, "--log", "log",
               "--only", "clock")  # fmt: skip
    assert (done.code, done.out) == (0, "")
    kept = read_capture_file(here / "log").entries
    assert [one.data for one in kept if one.line == 1] == flood
    assert [one.data for one in kept if one.line == 2] == flood


# --- full disks ---


def test_listen_goes_on_without_its_log_and_says_so(here, capsys, monkeypatch, full_disk):
    clock, wires = wired(monkeypatch, "listen", "left")
    for turn in range(1, 5):
        clock.at(turn * 100_000, lambda turn=turn: speaks(wires, "left", bytes((0xC2, turn))))
    full_disk(3)
    done = ran(capsys, "listen", "--port", "left", "--for", 1, "--log", "log")
    assert done.code == 3
    assert done.out.count("[C2") == 4
    assert done.out.count("not logged") == 1
    assert "log takes nothing more: no space left on device; what was written stays" in done.err
    assert len(read_capture_file(here / "log").entries) == 2


def test_an_audit_outlives_its_log(capsys, monkeypatch, full_disk):
    clock, wires = wired(monkeypatch, "audit", "left")
    clock.at(100_000, lambda: speaks(wires, "left", b"\xca\x00"))
    full_disk(2)
    done = ran(capsys, "audit", ORCHARD, "--port", "feet.midi-out-1=left", "--patience", "0.2",
               "--log", "log", "--report", "r.txt")  # fmt: skip
    assert done.code == 3
    assert "not logged" in done.err
    assert "not pressed" in done.out


def test_what_a_report_needs_is_asked_before_the_first_press(here, capsys, monkeypatch):
    wired(monkeypatch, "audit", "left")
    (here / "mine.txt").write_text("mine")
    for words, says in (
        (("--report", "mine.txt"), "mine.txt is there already"),
        (("--report", "no/r.html"), "there is no folder no"),
        (("--report", "/dev/full"), "its name should end in"),
        (("--report", "r.txt", "--log", "r.txt"), "both the report and the log"),
    ):
        done = ran(capsys, "audit", ORCHARD, "--port", "left", *words)
        assert done.code == 2
        assert says in done.err
        assert "press" not in done.err
    assert (here / "mine.txt").read_text() == "mine"


def test_learning_asks_for_its_file_before_the_first_press(here, capsys, monkeypatch):
    wired(monkeypatch, "learn", "left")
    (here / "new.rig.toml").write_text("mine")
    done = ran(capsys, "learn", "new", "--port", "left")
    assert (done.code, "is there already" in done.err) == (2, True)
    assert "next:" not in done.err


@pytest.mark.parametrize(
    "words",
    [
        ("audit", "a.cap", "--report", "r.html"),
        ("pretend", "b.cap"),
        ("backup", "delay", "--replay", "a.syx", "--name", "a"),
    ],
)
def test_a_disk_that_is_full_keeps_what_was_there(here, capsys, monkeypatch, words):
    ran(capsys, "pretend", ORCHARD, "a.cap")
    (here / "a.syx").write_bytes(b"".join(DUMP))
    (here / "r.html").write_text("mine")

    def no_room(opened, content):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("thruline.outside.files._fill", no_room)
    done = ran(capsys, words[0], ORCHARD, *words[1:])
    assert done.code == 3
    assert "no space left on device" in done.err
    assert (here / "r.html").read_text() == "mine"
    assert not [*here.rglob("*.new"), *here.rglob("a.txt"), *here.glob("b.cap")]
    if words[0] == "audit":
        assert "ok" in done.out, "what was found is said all the same"
