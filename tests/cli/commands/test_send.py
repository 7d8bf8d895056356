import io

import pytest

from tests.app.test_send import SWELL
from tests.bench.clocks import StepClock
from tests.cli.running import ran
from tests.opening import with_head
from tests.routed import BOTH, SAME_CHANNEL, TO_ECHO
from tests.samples.reading import AS_FOUND, ORCHARD
from tests.wires import kinds
from thruline.app.send import CAUTION
from thruline.bench.guard import Guarded
from thruline.bench.plugged import HeldOutput
from thruline.outside.midi_wires import Wires
from thruline.proof.example_boards import DELAY, TO_DELAY, board


def answers(monkeypatch, *said):
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{one}\n" for one in said)))


def test_try_sends_nothing(capsys):
    done = ran(capsys, "send", ORCHARD, 7, "--try")
    assert done.code == 0
    assert done.err == ""
    assert "[C2 33]" in done.out
    assert "look: Bramley Delay now shows program 11B" in done.out
    assert ran(capsys, "send", AS_FOUND, 5, "--try").code == 1


@kinds.IN_REAL_TIME
def test_a_preset_goes_out_after_the_caution(capsys, monkeypatch, tmp_path):
    with kinds.jack(tmp_path) as kind:
        told = ran(capsys, "send", ORCHARD, 7, "--port", "hears", "--yes", "--json")
        whole = [bytes.fromhex(one["bytes"]) for one in told.json["steps"][0]["messages"]]
        assert CAUTION in told.err
        assert kinds.heard(kind, sum(map(len, whole))) == b"".join(whole)
        answers(monkeypatch, "no")
        refused = ran(capsys, "send", ORCHARD, 7, "--port", "hears")
        assert refused.code == 130
        answers(monkeypatch, "yes", "yes", "no")
        steps = ran(capsys, "send", ORCHARD, 7, "--port", "hears", "--step")
        assert steps.code == 130
        assert steps.out.count("message") == 2, "two units, and then the person saw otherwise"
        kinds.heard(kind, 1000, seconds=0.3)
        assert ran(capsys, "send", ORCHARD, "--panic", "--port", "hears").code == 0
        assert b"\xb2\x78\x00\xb2\x7b\x00" in kinds.heard(kind, 60)
        sweep = ran(
            capsys, "send", ORCHARD, "Swell", "--port", "hears", "--yes", "--seconds", "0.5"
        )
        assert sweep.code == 0
        assert len(kinds.heard(kind, 100)) > 50


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "say what to send"),
        (("7",), "name a port to send to"),
        (("99", "--try"), "there is no preset 99"),
        (("Swel", "--try"), 'did you mean "Swell"'),
        (("Swell", "--try"), "--try is for presets"),
        (("--panic",), "name a port"),
    ],
)
def test_what_cannot_be_used(capsys, words, says):
    done = ran(capsys, "send", ORCHARD, *words)
    assert done.code == 2
    assert says in done.err


@pytest.fixture
def two_lines(monkeypatch, tmp_path):
    """A rig whose controller chooses between two outputs, and a port for each of them."""
    file = tmp_path / "two.rig.toml"
    pieces = (DELAY, SAME_CHANNEL, TO_DELAY, TO_ECHO, BOTH, SWELL)
    file.write_text(with_head(board(*pieces, controller="pearmain-ten").rig))
    wires = Wires("A", "B", clock=StepClock())

    def opened(words, _clock):
        return [Guarded(HeldOutput(wires, word)) for word in words]

    monkeypatch.setattr("thruline.cli.commands.send.open_outputs", opened)
    return file, wires


EACH = ("--port", "midi-out-1=A", "--port", "midi-out-2=B")


def test_each_output_has_its_port(capsys, two_lines):
    file, wires = two_lines
    done = ran(capsys, "send", file, 1, *EACH, "--yes")
    assert done.code == 0
    assert "Note:" not in done.err
    came = {name: [one.data for one in wires.open_input(name).take()] for name in "AB"}
    assert {one[-1] for one in came["A"]} & {40}
    assert {one[-1] for one in came["B"]} & {90}
    one = ran(capsys, "send", file, 1, "--port", "midi-out-1=A", "--yes")
    assert "no port stands for midi-out-2, so nothing goes to" in one.err
    both = ran(capsys, "send", file, 1, "--port", "A", "--yes")
    assert both.code == 2
    assert "which of them each port stands for" in both.err


def test_a_port_that_goes_leaves_the_others_silent_and_catches_up(capsys, monkeypatch, two_lines):
    file, wires = two_lines
    wires.unplug("B")

    def opened(words, _clock):
        wires.plug_in("B")
        found = [Guarded(HeldOutput(wires, word)) for word in words]
        wires.unplug("B")
        return found

    monkeypatch.setattr("thruline.cli.commands.send.open_outputs", opened)
    done = ran(capsys, "send", file, 1, *EACH, "--yes")
    assert done.code == 3
    assert "went nothing for" in done.err
    assert "everything went out" in done.err
    assert "stopped; all sound and all notes off, sent to A" in done.err
    wires.open_input("A").take()

    def answer(question):
        if "again" in question:
            wires.plug_in("B")
        return "again" if "again" in question else "yes"

    monkeypatch.setattr("thruline.cli.commands.send.ask", answer)
    assert ran(capsys, "send", file, 1, *EACH).code == 0
    came = {name: [one.data for one in wires.open_input(name).take()] for name in "AB"}
    assert 40 in {one[-1] for one in came["A"]}
    assert 90 in {one[-1] for one in came["B"]}


def test_a_no_between_two_units_leaves_nothing_sounding(capsys, monkeypatch, two_lines):
    file, wires = two_lines
    answers(monkeypatch, "yes", "no")
    done = ran(capsys, "send", file, 1, *EACH, "--step")
    assert done.code == 130
    assert "stopped; all sound and all notes off" in done.err
    for name in "AB":
        assert [one.data[1] for one in wires.open_input(name).take()][-1] == 123


def test_a_sweep_ends_when_a_port_goes_and_the_rest_is_silent(capsys, monkeypatch, two_lines):
    file, wires = two_lines
    goes = iter("+++++")

    def key():
        wires.unplug("B")
        return next(goes)

    monkeypatch.setattr("click.getchar", key)
    done = ran(capsys, "send", file, "Swell", *EACH, "--yes", "--by-keyboard")
    assert done.code == 3
    assert 'port "B" is gone' in done.err
    assert "sent to A" in done.err
    assert [one.data[1] for one in wires.open_input("A").take()][-1] == 123
