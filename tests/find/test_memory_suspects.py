from tests.find.boards import meant
from thruline.find.kinds import Kind
from thruline.find.memory_suspects import HALFWAY, memory_suspects
from thruline.find.suspect import send_instead
from thruline.timing.sending import Purpose

FOUND = {(one.kind, one.on): one for one in memory_suspects(meant())}
SENT = meant().sendings[1]


def _after(kind, on="box-2"):
    return send_instead(meant().sendings, FOUND[kind, on].changes)[1]


def _data(items, purpose):
    return [item.data for item in items if item.unit == "box-2" and item.purpose is purpose]


def test_every_one_changes_what_is_sent_but_no_more_than_its_unit():
    for (kind, on), one in FOUND.items():
        after = send_instead(meant().sendings, one.changes)
        assert after != meant().sendings, kind
        if on != "feet":
            others = [item for item in after[1] if item.unit != on]
            assert [item.data for item in others] == [i.data for i in SENT if i.unit != on]


def test_program_numbers():
    number = _data(SENT, Purpose.PROGRAM)[0][1]
    assert _data(_after(Kind.ENTRY_ONE_UP), Purpose.PROGRAM)[0][1] == number + 1
    assert _data(_after(Kind.ENTRY_ONE_DOWN), Purpose.PROGRAM)[0][1] == number - 1
    assert _data(_after(Kind.ENTRY_BEYOND), Purpose.PROGRAM)[0][1] == 127


def test_switches():
    halfway = _data(_after(Kind.SWITCH_HALFWAY), Purpose.CONTROL)
    assert HALFWAY in {data[2] for data in halfway if data[1] == 19}
    inverted = _data(_after(Kind.SWITCH_INVERTED), Purpose.CONTROL)
    assert {data[2] for data in inverted if data[1] == 19} == {0}


def test_controls_before_the_program():
    mine = [item.purpose for item in _after(Kind.CONTROLS_BEFORE_PROGRAM) if item.unit == "box-2"]
    assert mine == [Purpose.CONTROL, Purpose.CONTROL, Purpose.PROGRAM]


def test_another_channel_is_one_that_nobody_uses():
    used = {item.data[0] & 0x0F for item in SENT}
    moved = [
        item.data[0] & 0x0F for item in _after(Kind.ENTRY_OTHER_CHANNEL) if item.unit == "box-2"
    ]
    assert not used & set(moved)


def test_a_memory_that_was_never_written_is_empty():
    assert _after(Kind.MEMORY_NOT_WRITTEN, "feet") == ()
