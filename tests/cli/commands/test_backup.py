import io
import threading

import pytest

from tests.bench.clocks import StepClock
from tests.cli.running import ran
from tests.samples.reading import ORCHARD
from tests.wires import kinds
from thruline.base.measures import BYTE_US
from thruline.bench.face import Chunk

CAPTURE = """thruline capture 1
line 1 USB
0 1 F0 7E 00 06 02 7D 03 00 01 03 01 00 00 00 F7
9000 1 F0 7D 03 01 02 03 04 05 71 F7
9100 1 F0 7D 03 01 02 03 04 06 70 F7
"""
DUMP = bytes.fromhex("F07D0301020304057 1F7".replace(" ", "") + "F07D03010203040670F7")


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    (tmp_path / "a.cap").write_text(CAPTURE)
    return tmp_path


def test_kept_and_verified(here, capsys):
    told = ran(
        capsys, "backup", ORCHARD, "delay", "--replay", "a.cap", "--name", "a", "--json"
    ).json
    assert told["messages"] == 2
    assert told["facts"]["chart"] == "bramley-delay"
    again = ran(capsys, "restore", ORCHARD, "delay", "a", "--try", "--json")
    assert (again.code, again.json["sent"], again.json["facts"]) == (0, False, told["facts"])
    assert (
        "already" in ran(capsys, "backup", ORCHARD, "delay", "--replay", "a.cap", "--name", "a").err
    )


def test_damage_and_another_unit_are_refused(here, capsys):
    ran(capsys, "backup", ORCHARD, "delay", "--replay", "a.cap", "--name", "a")
    assert "none was kept" in ran(capsys, "restore", ORCHARD, "reverb", "a", "--try").err
    (file,) = here.glob("workshop/backups/*/delay/*.syx")
    file.write_bytes(file.read_bytes()[:-3])
    done = ran(capsys, "restore", ORCHARD, "delay", "a", "--try")
    assert done.code == 2
    assert "damaged" in done.err


def test_another_board_of_the_same_models_is_refused(here, capsys):
    ran(capsys, "backup", ORCHARD, "delay", "--replay", "a.cap", "--name", "a")
    content = ORCHARD.read_text()
    for folder, text in (
        ("b", content),
        ("c", content.replace("name = ", 'name = "Other " # ', 1)),
    ):
        (here / folder).mkdir()
        (here / folder / ORCHARD.name).write_text(text)
    (here / "club.rig.toml").write_text(content)
    tried = [
        ran(capsys, "restore", file, "delay", "a", "--try")
        for file in ("club.rig.toml", f"b/{ORCHARD.name}", f"c/{ORCHARD.name}")
    ]
    assert [one.code for one in tried] == [2, 0, 2]
    assert "none was kept yet" in tried[0].err
    assert "kept of the rig" in tried[1].out
    assert 'and this is "Other"; not sent' in tried[2].err


class Whole:
    """A port that hands over each message once all of it has come over the line."""

    name = "USB"

    def __init__(self, clock, messages):
        self._clock, self._waiting, at_us = clock, [], 1_000_000
        for message in messages:
            at_us += BYTE_US * len(message)
            self._waiting.append(Chunk(at_us, message))

    def take(self):
        now_us = self._clock.now_us()
        came = [one for one in self._waiting if one.at_us <= now_us]
        del self._waiting[: len(came)]
        return came, ""

    def close(self):
        pass


def exclusive(size):
    return b"\xf0\x7d" + bytes(size - 3) + b"\xf7"


@pytest.mark.parametrize(
    ("parts", "code", "says"),
    [
        ((exclusive(63), exclusive(9_003), exclusive(63)), 0, "3 messages, 9129 bytes"),
        ((exclusive(63), exclusive(63), exclusive(63)[:40]), 2, "exclusive 3 came broken"),
    ],
)
def test_a_dump_is_kept_whole_or_not_at_all(here, capsys, monkeypatch, parts, code, says):
    clock = StepClock()
    monkeypatch.setattr("thruline.cli.commands.backup.wall_clock", lambda: clock)
    monkeypatch.setattr(
        "thruline.cli.commands.backup.open_inputs", lambda _words, _clock: [Whole(clock, parts)]
    )
    done = ran(capsys, "backup", ORCHARD, "delay", "--port", "USB", "--name", "a")
    assert done.code == code
    assert says in done.out + done.err
    assert len([*here.glob("workshop/backups/*/delay/*.syx")]) == (code == 0)


@kinds.IN_REAL_TIME
def test_both_ways_over_a_port(here, capsys, monkeypatch):
    monkeypatch.setattr("thruline.cli.commands.backup.QUIET_US", 2_000_000)
    with kinds.jack(here) as kind:

        def unit():
            kinds.listened_to()
            kind.says(DUMP[:10])
            kind.says(DUMP[10:])

        player = threading.Thread(target=unit)
        player.start()
        kept = ran(capsys, "backup", ORCHARD, "delay", "--port", "speaks", "--name", "live")
        player.join()
        assert kept.code == 0, kept.err
        monkeypatch.setattr("sys.stdin", io.StringIO("yes\n"))
        refused = ran(capsys, "restore", ORCHARD, "delay", "live", "--port", "hears")
        assert refused.code == 2
        assert kinds.heard(kind, 1, seconds=0.3) == b""
        monkeypatch.setattr("sys.stdin", io.StringIO("delay\n"))
        assert ran(capsys, "restore", ORCHARD, "delay", "live", "--port", "hears").code == 0
        assert kinds.heard(kind, len(DUMP)) == DUMP


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("backup", ORCHARD, "delay"), "name the port"),
        (("backup", ORCHARD, "dela", "--replay", "a.cap"), 'did you mean "delay"'),
        (("restore", ORCHARD, "delay", "a"), "none was kept yet"),
    ],
)
def test_what_cannot_be_used(capsys, words, says):
    done = ran(capsys, *words)
    assert done.code == 2
    assert says in done.err


def test_a_name_that_is_none_is_refused_before_anything_is_listened_to(capsys):
    done = ran(capsys, "backup", ORCHARD, "delay", "--port", "nowhere", "--name", "../../x")
    assert done.code == 2
    assert "../../x" in done.err
    assert "nowhere" not in done.err
