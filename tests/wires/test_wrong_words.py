"""What a stranger gives the bench by mistake is told before anything is sent or written."""

import os

import click
import pytest

from tests.cli.running import ran
from tests.samples.reading import ORCHARD
from tests.wires.in_memory import wired

SEND = ("send", ORCHARD)
TO = ("--port", "left", "--yes")


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.cap").write_text("thruline capture 1\nline 1 USB\n0 1 C2 05\n")
    return tmp_path


def told(capsys, *words):
    """What is said of words that cannot be used."""
    done = ran(capsys, *words)
    assert (done.code, done.out) == (2, "")
    return done.err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((1, *TO, "--by-keyboard"), "--by-keyboard moves a sweep, and 1 is a preset"),
        ((1, *TO, "--by-pedal", "right"), "--by-pedal moves a sweep, and 1 is a preset"),
        (("Swell", *TO, "--step"), '--step is for presets, and "Swell" is a sweep'),
        (("Swell", *TO, "--pedal", "1/11:0-127"), "--pedal is about a pedal; name its port"),
        (("Swell", *TO, "--for", 2), "--for is about a pedal; name its port"),
        (("Swell", *TO, "--by-keyboard", "--by-pedal", "right"), "leave one of them out"),
        (("Swell", *TO, "--by-pedal", "right", "--pedal", "1/11"), '"1/11" is no pedal'),
        (("Swell", *TO, "--by-pedal", "none"), 'there is no input "none"'),
        ((1, *TO, "--port", "left"), 'port "left" is named twice; name each port once'),
        ((1, "--port", ""), 'the name of a port is empty; write one of "left", "right"'),
        (("Swell", *TO, "--seconds", "nan"), "nan is no amount; write a number"),
    ],
)
def test_send_sends_nothing(capsys, monkeypatch, words, says):
    _clock, wires = wired(monkeypatch, "send", "left", "right")
    err = told(capsys, *SEND, *words)
    assert says in err
    assert "turn amplifiers" not in err
    assert wires.open_input("left").take() == []


def test_keys_need_a_terminal(capsys, monkeypatch):
    wired(monkeypatch, "send", "left")

    def no_terminal():
        raise OSError(6, "No such device or address")

    monkeypatch.setattr(click, "getchar", no_terminal)
    done = ran(capsys, *SEND, "Swell", *TO, "--by-keyboard")
    assert (done.code, "--by-keyboard needs a terminal" in done.err) == (2, True)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("listen", "--port", "left", "--for", "inf"), "inf is no amount"),
        (("listen", "--port", "a=left", "--port", "b=left"), 'port "left" is named twice'),
        (("listen", "--port", "a=left", "--port", "a=right"), '"a" is there twice'),
        (("listen", "--port", "left", "--only", "clok"), 'did you mean "clock"?'),
        (("listen", "--port", "left", "--log", ""), "a file has a name, and this is empty"),
        (("listen", "--replay", "a.cap", "--log", "b.cap"), "--log is for listening to a port"),
        (("listen", "--replay", "a.cap", "--for", "1"), "--for is for listening to a port"),
    ],
)
def test_listen_writes_nothing(here, capsys, monkeypatch, words, says):
    wired(monkeypatch, "listen", "left", "right")
    assert says in told(capsys, *words)
    assert [file.name for file in here.iterdir()] == ["a.cap"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("audit", ORCHARD, "--port", "feet.midi=left"), '"feet.midi" is no MIDI output of this'),
        (("audit", ORCHARD, "a.cap", "--log", "b"), "--log is for listening to a port"),
        (("audit", ORCHARD, "--port", "left", "--patience", "nan"), "nan is no amount"),
        (("learn", "new", "a.cap", "--log", "b"), "--log is for listening to a port"),
        (("learn", "", "a.cap"), "a file has a name, and this is empty"),
        (("backup", ORCHARD, "delay", "--port", "left", "--patience", "nan"), "nan is no amount"),
        (("clock", "--out", "left", "--bpm", "nan"), "nan is no amount"),
        (("clock", "--out", "left", "--out", "left"), 'port "left" is named twice'),
        (("pretend", ORCHARD, "b.cap", "--lost", "nan"), "nan is no amount"),
        (("identify", ORCHARD, "--port", "right x"), "Say with --back where answers come in"),
    ],
)
def test_no_other_command_writes_anything(here, capsys, monkeypatch, words, says):
    wired(monkeypatch, words[0] if words[0] != "pretend" else "audit", "left", "right")
    assert says in told(capsys, *words)
    assert [file.name for file in here.iterdir()] == ["a.cap"]


@pytest.mark.skipif(os.name == "nt", reason="serial lines have other names there")
def test_a_serial_line_that_cannot_be_used(capsys):
    pytest.importorskip("serial", reason="the library for serial ports is not installed")
    missing = ran(capsys, *SEND, 1, "--port", "serial:/dev/no-such-line", "--yes")
    assert (missing.code, 'there is no serial line "/dev/no-such' in missing.err) == (2, True)
    no_line = ran(capsys, *SEND, 1, "--port", "serial:/dev/null", "--yes")
    assert (no_line.code, "it is no serial port" in no_line.err) == (3, True)
