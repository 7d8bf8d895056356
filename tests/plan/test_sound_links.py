"""The cables that the way of the sound asks for."""

from dataclasses import replace

from tests.opening import open_text
from tests.rigs import make_chart, make_controller, make_rig, make_unit, socket
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.plan.sound_links import missing_sound_cables
from thruline.rig.socket import SocketKind

IN, OUT = socket("in", "audio-in", "ts-6.35"), socket("out", "audio-out", "trs-6.35")
LOOP = [socket("send", "audio-out", "ts-6.35"), socket("back", "audio-in", "ts-6.35")]
CHARTS = [
    make_controller(sockets=[IN, OUT, *LOOP], ways=(), output=[], setting=[],
                    loop=[{"id": "loop-1", "send": "send", "return": "back"}]),
    make_chart("pedal", [IN, OUT]),
    make_chart("stereo", [IN, OUT, socket("out-2", "audio-out", "ts-6.35")]),
]  # fmt: skip


def missing(path, cables=(), **kinds):
    units = [make_unit("feet", "braeburn")]
    units += [make_unit(name, kinds.get(name, "pedal")) for name in "abc"]
    return list(missing_sound_cables(make_rig(units, cables, CHARTS, audio={"path": path})))


def steps(*words, **more):
    return [f"{cable.start} {cable.stop}" for cable in missing(list(words), **more)]


def test_from_unit_to_unit_and_nothing_off_the_board():
    assert steps("guitar", "a", "b", "amp") == ["a.out b.in"]


def test_through_a_loop_and_what_hangs_in_it():
    found = steps("guitar", "feet.loop-1[a,b]", "c", "amp")
    assert found == ["feet.send a.in", "a.out b.in", "b.out feet.back", "feet.out c.in"]


def test_what_is_plugged_in_already_is_left_alone():
    cable = {"from": "a.out", "to": "c.in", "ends": "ts-6.35/ts-6.35"}
    assert steps("guitar", "a", "b", "c", "amp", cables=[cable]) == []


def test_where_there_is_a_choice_nobody_can_tell():
    assert steps("guitar", "a", "b", "amp", a="stereo") == []


def test_plugs_are_those_for_sound():
    (cable,) = missing(["guitar", "a", "b", "amp"])
    assert cable.plugs == ("ts-6.35", "ts-6.35")
    assert dict(cable.joins) == {"tip": "tip", "sleeve": "sleeve"}
    assert cable.length is None


def test_the_sample_loses_its_cables_for_sound_and_gets_them_back():
    rig = open_text(sample_text(ORCHARD_STREET)).rig
    sounding = [
        cable for cable in rig.cables
        if rig.units[cable.start.unit].chart.sockets[cable.start.socket].kind
        is SocketKind.AUDIO_OUT
    ]  # fmt: skip
    bare = replace(rig, cables=tuple(cable for cable in rig.cables if cable not in sounding))
    again = {(cable.start, cable.stop) for cable in missing_sound_cables(bare)}
    assert again == {(cable.start, cable.stop) for cable in sounding}
    assert not list(missing_sound_cables(rig))
