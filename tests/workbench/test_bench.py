"""The bench of one rig without a browser: threads, and what happens while something is sent."""

import time

import pytest

from tests.app.test_send import SWELL
from tests.routed import case_of_two_lines
from tests.samples.reading import ORCHARD
from thruline.app import gathering
from thruline.app.send import preset_step, unit_steps
from thruline.app.sending import Progress
from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.port_list import PortList
from thruline.bench.systems import Systems
from thruline.bench_wiring import bench_keeping
from thruline.outside.midi_wires import Wires
from thruline.outside.wall_clock import SystemClock
from thruline.proof.case import Case
from thruline.wiring import open_file
from thruline.workbench.bench import Bench

CLOCK = SystemClock()
TAP = "feet.midi-out-1"


@pytest.fixture(scope="module")
def case():
    return Case(open_file(ORCHARD).rig)


@pytest.fixture
def made(tmp_path, monkeypatch):
    monkeypatch.setattr(gathering, "QUIET_US", 500_000)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path))
    wires = Wires("A", "B", clock=CLOCK)
    ports = PortList(Systems({"": lambda: wires}, CLOCK), CLOCK)
    bench = Bench("pit", ports, CLOCK, bench_keeping("pit"))
    yield bench, wires
    bench.close()


def until(is_so, seconds=5):
    end = time.monotonic() + seconds
    while not is_so():
        assert time.monotonic() < end
        time.sleep(0.01)


def rows(bench, case):
    return [one["says"] for one in bench.told(case, 0, only=[], hide=[])["rows"]]


def test_what_is_sent_out_of_one_port_is_heard_on_another(made, case):
    bench, wires = made
    bench.open(case, [("B", TAP)], [("A", "")])
    bench.sound_is_down(is_it=True)
    bench.send("preset 1", [preset_step(case, 1)])
    out, into = wires.open_output("B"), wires.open_input("A")
    until(lambda: bench.as_json()["sending"]["progress"] == "done")
    for chunk in into.take():
        out.send(chunk.data)
    until(lambda: any("from 1 " in one for one in rows(bench, case)))
    (name,) = bench.keeping.captures.names()
    assert bench.as_json()["log"] == name
    bench.close()
    assert bench.keeping.captures.read(name).lines == (TAP,)


def test_each_output_of_the_controller_has_its_port(made):
    bench, wires = made
    two = case_of_two_lines(SWELL)
    with pytest.raises(CannotUse, match="it chooses from midi-out-1, midi-out-2"):
        bench.open(two, [], [("A", "midi-out-9")])
    bench.open(two, [], [("A", "")])
    with pytest.raises(CannotUse, match="channel 3 is used on midi-out-1 and on midi-out-2"):
        bench.overs(two)
    bench.open(two, [], [("A", "midi-out-1"), ("B", "midi-out-2")])
    bench.sound_is_down(is_it=True)
    assert [one["over"] for one in bench.as_json()["open"]["outputs"]] == [
        "midi-out-1",
        "midi-out-2",
    ]
    overs = bench.overs(two)
    bench.send("preset 1", [preset_step(two, 1, overs=overs)])
    until(lambda: bench.as_json()["sending"]["progress"] == "done")
    items = two.run(two.rig.presets[0]).sending.items
    for name, unit in (("A", "delay"), ("B", "echo")):
        got = [one.data for one in wires.open_input(name).take()]
        assert got == [item.data for item in items if item.unit == unit]
    bench.sweep(lambda one: one.move(two, "Swell", place=127))
    assert [wires.open_input(name).take()[0].data[2] for name in "AB"] == [127, 0]


def test_panic_stops_what_is_being_sent(made, case):
    bench, wires = made
    bench.open(case, [], [("A", "")])
    bench.sound_is_down(is_it=True)
    steps = list(unit_steps(case, 1))
    bench.send("preset 1", steps)
    until(lambda: bench.as_json()["sending"]["progress"] == "asks")
    assert "all sound and all notes off" in bench.panic(case)
    assert bench.as_json()["sending"]["progress"] == "stopped"
    with pytest.raises(CannotUse, match="nothing is asked"):
        bench.answer(is_so=True)
    data = [one.data for one in wires.open_input("A").take()]
    assert data[-1][1:] == b"\x7b\x00"
    assert len(data) > len(steps[0].messages)


def test_closing_makes_everybody_ask_about_the_sound_again(made, case):
    bench, _ = made
    bench.open(case, [("B", "B")], [("A", "")])
    bench.sound_is_down(is_it=True)
    bench.open(case, [], [("A", "")])
    with pytest.raises(CannotUse, match="sound is turned down"):
        bench.send("preset 1", [preset_step(case, 1)])
    with pytest.raises(CannotUse, match="choose a port to listen to"):
        bench.audit(case)
    with pytest.raises(CannotUse, match="no audit"):
        bench.skip()
    with pytest.raises(CannotUse, match="choose a port to listen to"):
        bench.identify(case)


def test_a_restore_needs_the_units_name_its_own_model_and_an_open_port(made, case):
    bench, wires = made
    bench.open(case, [("B", "B")], [("A", "")])
    bench.save(case, "delay", "a")
    out = wires.open_output("B")
    dumps = [bytes.fromhex("f0 7d 01 02 03 f7"), bytes.fromhex("f0 7d 01 02 04 f7")]
    for dump in dumps:
        out.send(dump)
    until(lambda: "Kept as" in bench.as_json()["saving"]["says"])
    with pytest.raises(CannotUse, match="type the id of the unit"):
        bench.restore(case, "delay", name="a", port="A", confirmed="yes")
    with pytest.raises(CannotUse, match="choose the port"):
        bench.restore(case, "delay", name="a", port="B", confirmed="delay")
    with pytest.raises(CannotUse, match="there is no backup"):
        bench.restore(case, "reverb", name="a", port="A", confirmed="reverb")
    assert wires.open_input("A").take() == []
    bench.restore(case, "delay", name="a", port="A", confirmed="delay")
    until(lambda: bench.as_json()["sending"]["progress"] == "done")
    assert [one.data for one in wires.open_input("A").take()] == dumps


def test_a_dump_is_not_waited_for_under_a_name_that_none_can_have_and_is_given_up(made, case):
    bench, _ = made
    bench.open(case, [("B", "B")], [])
    for name in ("../../x", "a" * 300):
        with pytest.raises(CannotUse, match="is no name for a backup"):
            bench.save(case, "delay", name)
    assert bench.as_json()["saving"] is None
    with pytest.raises(CannotUse, match="no dump is waited for"):
        bench.stop_saving()
    bench.save(case, "delay", "b")
    bench.stop_saving()
    saving = bench.as_json()["saving"]
    assert saving["is_over"]
    assert saving["says"].startswith("Stopped: nothing was kept")


def test_a_log_that_cannot_be_made_is_told_and_listening_goes_on(made, case, tmp_path):
    bench, wires = made
    (tmp_path / "captures").write_text("in the way")
    bench.open(case, [("B", TAP)], [])
    assert "not logged" in bench.as_json()["says"]
    wires.open_output("B").send(b"\xc0\x05")
    until(lambda: rows(bench, case))


def test_a_port_that_cannot_be_opened_leaves_nothing_open(made, case):
    bench, _ = made
    with pytest.raises(WorldFailed, match="no such wire"):
        bench.open(case, [("nowhere", TAP)], [("A", "")])
    assert bench.as_json()["open"] == {"inputs": [], "outputs": []}


def test_nobody_is_asked_who_they_are_while_a_memory_is_sent(made, case):
    bench, wires = made
    bench.open(case, [("B", "B")], [("A", "")])
    wires.open_input("A").take()
    bench._sending.progress = Progress.PLAYING
    with pytest.raises(CannotUse, match="is being sent just now"):
        bench.identify(case)
    bench._sending.progress = Progress.IDLE
    assert wires.open_input("A").take() == []


def test_listening_that_stumbles_is_told_and_goes_on_but_no_memory_is_kept(made, case, monkeypatch):
    bench, wires = made
    bench.open(case, [("B", TAP)], [])
    out = wires.open_output("B")
    bench.save(case, "delay", "a")
    out.send(b"\xf0\x7d\x01\xf7")
    until(lambda: "came from" in bench.as_json()["saving"]["says"])

    def stumbles():
        raise ZeroDivisionError("of no use")

    with monkeypatch.context() as broken:
        broken.setattr(bench._listening, "turn", stumbles)
        until(lambda: bench.as_json()["saving"]["is_over"])
    assert "listening went wrong (ZeroDivisionError: of no use)" in bench.as_json()["says"]
    assert bench.as_json()["saving"]["says"].startswith("Not kept: listening went wrong")
    assert bench.keeping.backups.names("delay") == ()
    out.send(b"\xc0\x05")
    until(lambda: any("program" in one for one in rows(bench, case)))
