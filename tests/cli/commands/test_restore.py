import pytest

from tests.bench.clocks import StepClock
from tests.cli.running import ran
from tests.samples.reading import ORCHARD
from thruline.bench.plugged import HeldOutput
from thruline.outside.midi_wires import WireOutput, Wires


def test_a_port_or_a_try(capsys, tmp_path, monkeypatch):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path))
    (tmp_path / "a.syx").write_bytes(b"\xf0\x7d\x01\xf7")
    ran(capsys, "backup", ORCHARD, "delay", "--replay", tmp_path / "a.syx", "--name", "a")
    done = ran(capsys, "restore", ORCHARD, "delay", "a")
    assert done.code == 2
    assert "name the port to send to" in done.err
    assert (
        "verifies; nothing was sent" in ran(capsys, "restore", ORCHARD, "delay", "a", "--try").out
    )


def test_a_dump_that_the_port_does_not_carry_is_told_before_anything_is_asked(
    capsys, tmp_path, monkeypatch
):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path))
    (tmp_path / "a.syx").write_bytes(b"\xf0\x7d" + bytes(20_000) + b"\xf7")
    ran(capsys, "backup", ORCHARD, "delay", "--replay", tmp_path / "a.syx", "--name", "a")
    wires = Wires("A", clock=StepClock())
    monkeypatch.setattr(
        "thruline.cli.commands.restore.open_restoring", lambda word, _: HeldOutput(wires, word)
    )
    fits = ran(capsys, "restore", ORCHARD, "delay", "a", "--port", "A", "--try")
    assert fits.code == 0
    monkeypatch.setattr(WireOutput, "longest", 16_000)
    for more in ((), ("--try",)):
        done = ran(capsys, "restore", ORCHARD, "delay", "a", "--port", "A", *more)
        assert done.code == 2
        assert "has 20,003 bytes" in done.err
        assert "overwrites" not in done.err
    assert wires.open_input("A").take() == []


@pytest.mark.parametrize(
    ("stopped_at", "says_mixture"), [("the question", False), ("the second message", True)]
)
def test_who_stops_it_is_told_what_the_unit_has(
    capsys, tmp_path, monkeypatch, stopped_at, says_mixture
):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path))
    (tmp_path / "a.syx").write_bytes(b"\xf0\x7d\x01\xf7" * 3)
    ran(capsys, "backup", ORCHARD, "delay", "--replay", tmp_path / "a.syx", "--name", "a")
    wires, sent = Wires("A", clock=StepClock()), []

    def send(_port, data):
        if len(sent) == 1:
            raise KeyboardInterrupt
        sent.append(data)

    def asked(_question):
        if stopped_at == "the question":
            raise KeyboardInterrupt
        return "delay"

    monkeypatch.setattr(WireOutput, "send", send)
    monkeypatch.setattr("thruline.cli.commands.restore.ask", asked)
    monkeypatch.setattr(
        "thruline.cli.commands.restore.open_restoring", lambda word, _: HeldOutput(wires, word)
    )
    done = ran(capsys, "restore", ORCHARD, "delay", "a", "--port", "A")
    assert done.code == 130
    assert ("may be half old and half new" in done.err) == says_mixture
