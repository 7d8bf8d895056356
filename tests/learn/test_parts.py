import pytest

from thruline.audit.capture import Came, Capture, Note, NoteKind
from thruline.learn.parts import SILENCE_US, Label, cut, label_of


def capture(*entries, lines=("a", "b")):
    return Capture(lines=lines, entries=entries)


def test_a_note_begins_a_part_and_a_silence_where_nobody_notes():
    came = [Came(0, 1, b"\xc0\x01"), Came(SILENCE_US + 1000, 1, b"\xc0\x02")]
    assert [one.label for one in cut([capture(*came)]).parts] == [None, None]
    noted = capture(Note(0, 0, NoteKind.PRESS, "7"), *came)
    (part,) = cut([noted]).parts
    assert part.label == Label(7, None)
    assert [one.data for one in part.messages] == [b"\xc0\x01", b"\xc0\x02"]


@pytest.mark.parametrize(
    ("kind", "text", "label"),
    [
        (NoteKind.PRESS, "12", Label(12, None)),
        (NoteKind.PRESS, "12 Balcony", Label(12, None, "Balcony")),
        (NoteKind.PRESS, "Balcony", None),
        (NoteKind.SWEEP, "Swell", Label(None, "Swell")),
    ],
)
def test_what_a_note_says(kind, text, label):
    assert label_of(Note(0, 0, kind, text)) == label


def test_what_was_skipped_belongs_to_nobody():
    found = cut(
        [
            capture(
                Note(0, 0, NoteKind.PRESS, "1"),
                Came(10, 1, b"\xc0\x01"),
                Note(20, 0, NoteKind.SKIP, "1"),
                Note(30, 0, NoteKind.PRESS, "2"),
                Came(40, 1, b"\xc0\x02"),
            )
        ]
    )
    assert [one.label.preset for one in found.parts] == [2]


def test_two_lines_of_one_press_and_two_captures():
    both = capture(Came(0, 1, b"\xc0\x01"), Came(5, 2, b"\xc0\x01"))
    found = cut([both, both]).parts
    assert [(one.take, one.line) for one in found] == [(0, 1), (0, 2), (1, 1), (1, 2)]
    assert found[0].serial == found[1].serial != found[2].serial


def test_a_lost_status_makes_no_message_of_a_sender_that_repeats_it():
    came = [Came(1000 * place, 1, bytes((0xB0, 20, place))) for place in range(5)]
    broken = Came(9000, 1, b"\x15\x10")
    found = cut([capture(*came, broken)])
    assert not found.running_status
    assert (len(found.parts[0].messages), found.parts[0].malformed) == (5, 1)
    running = [came[0], *(Came(1000 + place, 1, bytes((20, place))) for place in range(5))]
    found = cut([capture(*running)])
    assert found.running_status
    assert len(found.parts[0].messages) == 6


def test_who_is_there_may_be_asked_meanwhile_and_clock_may_run():
    press = Note(0, 0, NoteKind.PRESS, "7")
    reply = bytes.fromhex("f0 7e 00 06 02 7d 03 00 01 03 01 00 00 00 f7")
    beside = [
        Came(5, 1, bytes.fromhex("f0 7e 7f 06 01 f7")),
        Came(9, 1, reply),
        Came(9, 1, b"\xf8"),
    ]
    (part,) = cut([capture(press, *beside, Came(10, 1, b"\xc0\x01"))]).parts
    assert [one.data for one in part.messages] == [b"\xc0\x01"]
