"""Every command that reads a capture, given one that is of the wrong kind, damaged or absurd."""

import random

import pytest

from tests.cli.running import ran
from tests.samples.reading import ORCHARD

HEAD = "thruline capture 1\nline 1 USB\n"
FAR = b"\x00\xff\x51\x03\xff\xff\xff" + b"\xff\xff\xff\x7f\xca\x05" * 3000  # 4000 years an event
WRONG = {
    "empty.capture": b"",
    "head.capture": HEAD.encode(),
    "nowhere.capture": b"thruline capture 1\n0 0 F8\n",
    "digits.capture": f"{HEAD}0 0 press {'9' * 5000}\n10 1 C2 05\n".encode(),
    "raised.capture": f"{HEAD}0 0 press ²\n10 1 C2 05\n".encode(),
    "late.capture": f"{HEAD}0 0 press 1\n{'9' * 18} 1 CA 05\n".encode(),
    "lines.capture": b"thruline capture 1\nline 9999 USB\n0 9999 CA 05\n",
    "wide.capture": f"{HEAD}0 1 CA 05\n".encode("utf-16"),
    "midi.capture": b"MThd\0\0\0\6\0\0\0\0\0\1",
    "cut.mid": b"MThd\0\0\0\6\0\0",
    "far.mid": b"MThd\0\0\0\6\0\0\0\1\0\1MTrk" + len(FAR).to_bytes(4) + FAR,
    "rubbish.syx": random.Random(1).randbytes(3000),
    "endless.syx": b"\xf0" + b"\x01" * 20_000,
    "folder.capture": None,
}
COMMANDS = {
    "listen": ("listen", ORCHARD, "--replay", "{}"),
    "audit": ("audit", ORCHARD, "{}"),
    "clock": ("clock", "--replay", "{}"),
    "identify": ("identify", ORCHARD, "--replay", "{}"),
    "backup": ("backup", ORCHARD, "delay", "--replay", "{}", "--name", "a"),
    "learn": ("learn", "new", "{}"),
}


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("name", WRONG)
def test_it_is_told_in_words(capsys, tmp_path, monkeypatch, name, command):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    content = WRONG[name]
    if content is None:
        (tmp_path / name).mkdir()
    else:
        (tmp_path / name).write_bytes(content)
    done = ran(capsys, *(str(word).format(name) for word in COMMANDS[command]))
    assert done.code in (0, 1, 2)
    assert done.code != 2 or done.err.strip()
    assert command != "backup" or (done.code, (tmp_path / "workshop").exists()) == (2, False)
    assert "Traceback" not in done.err


@pytest.mark.parametrize("what", ["²", "9" * 5000])
def test_no_preset_is_called_so(capsys, what):
    done = ran(capsys, "send", ORCHARD, what, "--try")
    assert (done.code, "there is no preset or sweep" in done.err) == (2, True)


@pytest.mark.parametrize("number", ["²", "9" * 5000])
def test_no_preset_is_named_so(capsys, tmp_path, monkeypatch, number):
    monkeypatch.chdir(tmp_path)
    done = ran(capsys, "learn", "new", "none", "--preset", f"{number}=Dawn")
    assert (done.code, "names no preset" in done.err) == (2, True)
