import pytest
from hypothesis import given

from tests.midi.any_message import messages
from tests.opening import open_text
from thruline.audit.capture import Came, Capture, Caught, Note, NoteKind, caught
from thruline.bench.telling import Choice, Kind, Teller, kind_of, tell_all, told_row
from thruline.midi.encode import encode
from thruline.midi.stream import Heard
from thruline.proof.case import Case

BOARD = """
[[unit]]
id = "feet"
chart = "braeburn-six"
[[unit]]
id = "box"
chart = "box"
channel = 3
[[cable]]
from = "feet.midi-out-1"
to = "box.midi-in"
ends = "din5/din5"
length = 300
[[preset]]
number = 7
name = "Balcony"
box = { program = "1B", mix = "50%" }
[[preset]]
number = 8
name = "Pit"
box = { program = "2A" }
"""
BOX = """
format = 1
[chart]
id = "box"
maker = "Orchard"
model = "Box"
kind = "delay"
[[socket]]
id = "midi-in"
kind = "midi-in"
connector = "din5"
isolated = true
[channel]
factory = 1
[programs]
banks = { count = 30, first = 1 }
slots = { count = 2, first = "A" }
bank-select = "msb"
first-bank = 0
[receive]
program = true
control = true
[[control]]
id = "mix"
name = "Mix"
number = 52
scale = { unit = "%", low = 0, high = 100 }
"""


@pytest.fixture(scope="module")
def case():
    return Case(open_text(BOARD, BOX).rig)


PROGRAM = (
    'feet -> box: program 1B (bank 0, program 1), 0.64 ms after the bank select, from 7 "Balcony"'
)


def rows(case, *came, choice=None):
    capture = Capture(lines=("left",), entries=came)
    told = tell_all(Teller(case, capture.lines), caught(capture), choice or Choice())
    return [one.says for one in told]


def test_the_rigs_own_words(case):
    assert rows(
        case, Came(0, 1, b"\xb2\x00\x00"), Came(640, 1, b"\xc2\x01"), Came(1600, 1, b"\xb2\x34\x40")
    ) == [
        'feet -> box: bank select, coarse 0, from 7 "Balcony" or 8 "Pit"',
        PROGRAM,
        'feet -> box: Mix 50 % (control 52 = 64), from 7 "Balcony"',
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("after", "says"),
    [
        ("keeps", "no such program (bank 1, program 1)"),
        ("clears", "program 1B (bank 0, program 1)"),
    ],
)
def test_a_unit_that_clears_its_bank_is_told_as_it_hears(after, says):
    chart = BOX.replace("first-bank = 0", f'first-bank = 0\nbank-after = "{after}"').replace(
        "banks = { count = 30, first = 1 }", "banks = { count = 1, first = 1 }"
    )
    board = BOARD.replace('program = "2A"', 'program = "1A"')
    case = Case(open_text(board, chart).rig)
    came = [Came(0, 1, b"\xb2\x00\x01"), Came(9, 1, b"\xc2\x01"), Came(18, 1, b"\xc2\x01")]
    assert says in rows(case, *came)[-1]


def test_what_no_unit_or_preset_knows(case):
    came = [Came(0, 1, b"\xc2\x63"), Came(9, 1, b"\xc5\x01"), Came(9, 1, b"\xb2\x63\x01")]
    assert rows(case, *came) == [
        "feet -> box: program change 99, of a bank that was selected before, from no preset",
        "feet -> nobody: channel 6: program change 1",
        "feet -> box: control 99 = 1, from no preset",
    ]  # fmt: skip


def test_without_a_rig_the_standards_words():
    assert rows(None, Came(0, 1, b"\xc2\x05"), Came(0, 1, b"\xf8")) == [
        "channel 3: program change 5", "clock",
    ]  # fmt: skip


def test_what_is_malformed_and_what_happened(case):
    told = rows(
        case,
        Came(0, 1, b"\x05"),
        Note(1, 1, NoteKind.GONE, "USB"),
        Note(2, 1, NoteKind.BACK, "USB"),
    )
    assert told[0].startswith("MALFORMED: orphan data")
    assert told[1:] == [
        'port "USB" is gone; plug it in again, and listening goes on', 'port "USB" is back',
    ]  # fmt: skip


@given(messages)
def test_every_message_has_a_kind_and_words(case, message):
    raw = encode(message)
    told = Teller(case, ("left",)).tell(Caught(0, 1, Heard(message, 0, len(raw) - 1)))
    assert told.kind is kind_of(raw)
    assert told.says
    assert told.raw.hex(" ").upper()[:23] in told_row(told)


def test_a_choice(case):
    came = [
        Came(0, 1, b"\xc2\x01"),
        Came(0, 1, b"\xf8"),
        Came(0, 1, b"\xb2\x34\x40"),
        Came(0, 1, b"\x01\x02\x03"),
    ]
    only = Choice(only=frozenset({Kind.PROGRAM.value}))
    assert len(rows(case, *came[:3], choice=only)) == 1
    assert len(rows(case, *came[:3], choice=Choice(only=frozenset({"box"})))) == 2
    assert len(rows(case, *came[:3], choice=Choice(hide=frozenset({"clock"})))) == 2
    assert rows(case, *came[:3], choice=Choice(hide=frozenset({"left"}))) == []
