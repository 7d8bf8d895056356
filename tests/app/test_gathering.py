import pytest

from tests.audit.boards import board
from thruline.app.gathering import NOBODY, PATIENCE_US, QUIET_US, Identifying, Saving
from thruline.audit.capture import Came, Note, NoteKind
from thruline.bench.identity import WAIT_US
from thruline.outside.backups import BackupFolder

RIG = board()
UNIT = next(one for one in RIG.units.values() if one is not RIG.controller)
DUMP = bytes.fromhex("f0 7d 01 02 03 f7")


def heard(data):
    return [Came(0, 1, data)]


def test_silence_and_an_answer_to_who_is_there():
    asked = Identifying(RIG, 0)
    asked.hear([], WAIT_US - 1)
    assert asked.as_json() == {"is_over": False, "answered": [], "says": ""}
    asked.hear([], WAIT_US)
    assert asked.as_json()["says"] == NOBODY
    asked = Identifying(RIG, 0)
    asked.hear(heard(bytes.fromhex("f0 7e 00 06 02 7d 01 00 02 00 00 00 01 00 f7")), 10)
    assert "no unit of this rig: maker" in asked.as_json()["answered"][0]


@pytest.mark.parametrize(
    ("data", "says", "kept"),
    [
        (DUMP, 'Kept as "a"', ("a",)),
        (DUMP[:-1] + b"\xc0\x01", "Not kept", ()),
        (b"", "Not kept", ()),
        (DUMP + DUMP[:3], "exclusive 2 came broken", ()),
    ],
)
def test_a_memory_is_kept_when_it_is_whole(tmp_path, data, says, kept):
    store = BackupFolder(tmp_path, "pit")
    saving = Saving(UNIT, name="a", date="2026-03-01 19:04:11", now_us=0, rig="Pit")
    assert "Start the dump" in saving.says
    saving.hear(heard(data), 10, store)
    saving.hear([], PATIENCE_US + QUIET_US, store)
    assert saving.is_over
    assert says in saving.as_json()["says"]
    assert store.names(UNIT.id) == kept


def test_a_long_message_that_comes_whole_is_waited_for(tmp_path):
    """A port that hands over whole messages is quiet for as long as one takes on the line."""
    store, parts = (
        BackupFolder(tmp_path, "pit"),
        [DUMP, b"\xf0\x7d" + bytes(15_990) + b"\xf7", DUMP],
    )
    saving = Saving(UNIT, name="a", date="2026-03-01 19:04:11", now_us=0, rig="Pit")
    now_us = 0
    for part in parts:
        for _ in range(10):
            saving.hear([], now_us, store)
            now_us += len(part) * 320 // 10
        saving.hear([Came(now_us, 1, part)], now_us, store)
    saving.hear([], now_us + PATIENCE_US, store)
    assert "3 messages" in saving.as_json()["says"]


def test_what_a_port_left_half_said_does_not_count(tmp_path):
    store, gone = BackupFolder(tmp_path, "pit"), Note(20, 1, NoteKind.GONE, "USB")
    saving = Saving(UNIT, name="a", date="2026-03-01 19:04:11", now_us=0, rig="Pit")
    saving.hear([*heard(DUMP), gone], 20, store)
    assert saving.is_over
    assert 'Not kept: port "USB" went away' in saving.as_json()["says"]
    assert store.names(UNIT.id) == ()
    asked = Identifying(RIG, 0)
    asked.hear([gone], 20)
    assert 'port "USB" went away' in asked.as_json()["says"]
