import pytest

from tests.opening import open_text
from tests.samples.reading import AS_FOUND, ORCHARD, rig
from thruline.app.trace import Which, trace
from thruline.base.errors import CannotUse
from thruline.compose.jobs import Effort, Proof
from thruline.midi.message import ControlChange, ProgramChange
from thruline.proof.case import Case
from thruline.timing.fate import Fate
from thruline.timing.rows import RowKind

BOARD = """
[[unit]]
id = "feet"
chart = "braeburn-six"

[[unit]]
id = "delay"
chart = "bramley-delay"
channel = 3

[[unit]]
id = "drive"
chart = "russet-drive"

[[cable]]
from = "feet.midi-out-1"
to = "delay.midi-in"
ends = "din5/din5"

[audio]
path = ["guitar", "feet.loop-2[drive]", "delay", "amplifier"]

[[preset]]
number = 1
name = "Intro"
drive = "in"
delay = { program = "2A", mix = "40%" }

[[preset]]
number = 2
name = "Verse"
delay = "1A"
"""
STORED = BOARD.replace(
    'name = "Intro"', 'name = "Intro"\nmessages = ["3: program 6", "3: control 52 = 51"]'
)


@pytest.fixture(scope="module")
def case():
    return Case(open_text(BOARD).rig)


@pytest.fixture(scope="module")
def found(case):
    return trace(case, 1)


def test_every_message_with_what_it_is_for(found):
    assert [one.number for one in found.messages] == [1, 2, 3, 4]
    assert [one.meaning.says for one in found.messages][2:] == [
        "Bramley Delay: program 2A",
        "Bramley Delay: Mix 40 %",
    ]
    last = found.messages[-1]
    assert last.item.pause_us > 0
    assert [fall.end.fate for fall in last.falls] == [Fate.OBEYED]


def test_it_is_right_when_the_proof_says_so(case, found):
    assert found.right_us == case.run(found.preset).right_us
    assert found.is_obeyed


def test_nothing_can_be_faster_and_why(found):
    assert found.cannot_be_faster
    assert found.best.least_us == found.right_us
    assert found.best.proof is not Proof.NOT_PROVED


def test_a_relay_loop_is_a_square(found):
    drive = next(row for row in found.picture.rows if row.unit == "drive")
    assert (drive.kind, drive.state) == (RowKind.LOOP, "in")


def test_the_title_says_where_one_comes_from(case, found):
    assert found.picture.title == 'press 1 "Intro"'
    assert trace(case, 1, came_from=2).picture.title == 'press 1 "Intro", coming from 2 "Verse"'


def test_messages_do_not_depend_on_where_one_comes_from(case, found):
    assert trace(case, 1, came_from=2).sending == found.sending


def test_what_the_memory_holds_is_what_a_press_sends():
    case = Case(open_text(STORED).rig)
    found = trace(case, 1)
    assert found.is_stored
    assert not found.is_obeyed
    assert [fall.end.fate for fall in found.picture.failed] == [Fate.LOST]
    assert trace(case, 1, which=Which.STORED).sending == found.sending


def test_the_best_order_may_be_asked_for():
    case = Case(open_text(STORED).rig)
    best = trace(case, 1, which=Which.BEST)
    assert not best.is_stored
    assert best.is_obeyed
    assert best.right_us == trace(case, 1).best.right_us


def test_timed_messages_are_what_leaves(found):
    first, *_, last = found.timed_messages
    assert first == (found.messages[0].leaves_us, ControlChange(3, 0, 0))
    assert last == (found.messages[-1].leaves_us, ControlChange(3, 52, 51))
    assert any(isinstance(message, ProgramChange) for _, message in found.timed_messages)


def test_a_preset_that_is_not_there(case):
    with pytest.raises(CannotUse, match='no preset 7 in this rig; the nearest are 1 "Intro", 2'):
        trace(case, 7)
    with pytest.raises(CannotUse, match="no preset 7"):
        trace(case, 1, came_from=7)


def test_a_rig_without_presets():
    case = Case(open_text(BOARD[: BOARD.index("[[preset]]")]).rig)
    with pytest.raises(CannotUse, match="this rig has no presets yet"):
        trace(case, 1)


def test_a_memory_that_nobody_has_written_down(case):
    with pytest.raises(CannotUse, match="does not say what the controller holds"):
        trace(case, 1, which=Which.STORED)


def test_a_rig_without_a_controller():
    head = 'format = 1\n[rig]\nname = "Example"\ncontroller = "nobody"\n'
    with pytest.raises(CannotUse, match="no controller"):
        trace(Case(open_text(head + BOARD).rig), 1)


def test_a_preset_that_sends_nothing():
    text = BOARD + '\n[[preset]]\nnumber = 3\nname = "Dry"\ndrive = "out"\n'
    found = trace(Case(open_text(text).rig), 3)
    assert (found.messages, found.right_us) == ((), 0)
    assert found.picture.least is None


def test_a_unit_that_hears_nothing_takes_the_bound_away():
    silent = BOARD.replace('to = "delay.midi-in"', 'to = "delay.midi-thru"')
    found = trace(Case(open_text(silent).rig), 1)
    assert found.best.least_us is None
    assert not found.is_obeyed


def test_every_preset_of_the_right_board_is_obeyed_and_cannot_be_faster():
    case = Case(rig(ORCHARD))
    for preset in case.rig.presets:
        found = trace(case, preset.number, effort=Effort.FULL)
        assert found.is_obeyed
        assert found.cannot_be_faster


def test_the_board_as_found_shows_what_is_cut_off():
    found = trace(Case(rig(AS_FOUND)), 5)
    cut = {row.unit: row.silent for row in found.picture.rows if row.is_cut}
    assert set(cut) == {"looper", "mod", "pitch"}
    assert cut["mod"] == 'Pippin Reverb MIDI OUT is set to "own"'


def test_what_cannot_be_sent_is_told_first():
    case = Case(open_text(BOARD.replace('mix = "40%"', 'mix = "25 s"')).rig)
    found = trace(case, 1)
    assert found.is_obeyed
    assert not found.is_done
    assert [one.says for one in found.not_sent] == ["Bramley Delay: Mix 25 s"]
    assert found.picture.is_wrong
