from dataclasses import replace

from tests.opening import open_text
from thruline.audit.capture import Came, Capture, caught
from thruline.bench.guard import refuse_unasked
from thruline.bench.identity import answers, fits, question
from thruline.midi.encode import encode
from thruline.midi.identity import IdentityReply, reply_to_message

BOARD = """
[[unit]]
id = "feet"
chart = "braeburn-six"
[[unit]]
id = "delay"
chart = "bramley-delay"
"""
UNITS = [(name, unit.chart) for name, unit in open_text(BOARD).rig.units.items()]
DELAY = IdentityReply(device=4, maker=b"\x7d", family=3, member=385, revision=b"\1\0\0\0")


def test_the_question_may_be_asked():
    assert question().hex() == "f07e7f0601f7"
    refuse_unasked(question())


def test_answers_are_held_against_the_charts():
    stranger = replace(DELAY, maker=b"\0\x20\x55")
    raw = b"".join(encode(reply_to_message(one)) for one in (DELAY, stranger)) + b"\xc0\x01"
    found = answers(caught(Capture(lines=("a",), entries=(Came(0, 1, raw),))), UNITS)
    assert [one.units for one in found] == [("delay",), ()]
    assert found[0].says.startswith("delay: maker 7D (schools and research), family 3, member 385")
    assert found[1].says.startswith("no unit of this rig: maker 00 20 55 (European)")


def test_device_number_and_revision_do_not_matter():
    chart = dict(UNITS)["delay"]
    assert fits(replace(DELAY, device=9, revision=b"\7\7\7\7"), chart)
    assert not fits(replace(DELAY, member=386), chart)
    assert not fits(DELAY, replace(chart, identity=()))
