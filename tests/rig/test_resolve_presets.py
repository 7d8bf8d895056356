import pytest
from pydantic import ValidationError

from tests.rigs import make_chart, make_controller, make_rig, make_unit, socket
from thruline.rig.preset import StoredPause, StoredProgram
from thruline.rig.programs import WireProgram
from thruline.rig.sweep import Curve
from thruline.rig.values import NotUnderstood, Value
from thruline.rig.whole import Lack

MIX = {"id": "mix", "name": "Mix", "number": 14}
DELAY = make_chart(
    programs={"banks": {"count": 20}, "slots": {"count": 5, "first": "A"}}, control=[MIX]
)
FEET = make_controller(
    sockets=[socket("exp", "expression-in", "trs-6.35")],
    controller={"presets": 10, "programs-from": 1},
    pedal=[{"socket": "exp"}],
)
UNITS = [make_unit("feet", "braeburn"), make_unit("delay", "bramley")]


def rig_with(**more):
    return make_rig(UNITS, charts=[FEET, DELAY], **more)


def preset_with(**goals):
    return rig_with(preset=[{"number": 1, "name": "x", **goals}])


def goal(**goals):
    (found,) = preset_with(**goals).presets[0].goals
    return found


@pytest.mark.parametrize(
    ("wanted", "label", "in_loop"),
    [
        ("11B", "11B", None),
        ("in", None, True),
        ("out", None, False),
        ({"program": "11B", "loop": "in"}, "11B", True),
    ],
)
def test_a_goal_is_a_program_or_a_loop_or_both(wanted, label, in_loop):
    found = goal(delay=wanted)
    assert (found.program.label if found.program else None, found.in_loop) == (label, in_loop)
    assert found.bare is isinstance(wanted, str)


def test_a_program_goal_has_its_bytes_or_none():
    assert goal(delay="11B").program.wire == WireProgram(0, 51)
    assert goal(delay="99Z").program.wire is None
    assert goal(delay={"program": 7}).program.label == "7"
    assert goal(delay={"program": True}).program.label == "true"


def test_a_control_goal_has_its_value_or_why_not():
    (right,) = goal(delay={"mix": "50%"}).controls
    assert right.value == Value("50%", 64, "64")
    (wrong,) = goal(delay={"mix": "loud"}).controls
    assert isinstance(wrong.value, NotUnderstood)


@pytest.mark.parametrize(
    ("goals", "lack", "where", "nearest", "instead"),
    [
        ({"dealy": "1A"}, Lack.UNIT, "preset[1].dealy", "delay", None),
        ({"delay": {"mxi": 3}}, Lack.CONTROL, "preset[1].delay.mxi", "mix", None),
        ({"delay": {"loop": "inn"}}, Lack.CONTROL, "preset[1].delay.loop", "in", "in"),
        ({"messages": ["hello"]}, Lack.MESSAGE, "preset[1].messages[#1]", None, None),
    ],
)
def test_goals_that_cannot_be(goals, lack, where, nearest, instead):
    (gap,) = preset_with(**goals).unresolved
    assert (gap.lack, str(gap.address), gap.nearest) == (lack, where, nearest)
    assert gap.instead == instead


def test_stored_messages_count_as_the_screen_does():
    preset = preset_with(messages=["3: program 24", "wait 5 ms"]).presets[0]
    assert preset.stored == (StoredProgram(3, 24, 23), StoredPause(5))
    assert preset_with().presets[0].stored is None
    assert preset_with(messages=[]).presets[0].stored == ()


def test_presets_of_one_number_are_told_apart():
    rig = rig_with(preset=[{"number": 2, "name": "a"}, {"number": 2, "name": "b"}])
    assert [str(preset.address) for preset in rig.presets] == ["preset[2]", "preset[2#2]"]
    assert rig.presets[0].title == '2 "a"'
    assert rig.presets[0].goal_for("delay") is None


def sweep_with(rows=({"unit": "delay", "control": "mix", "heel": 0, "toe": "50%"},), **more):
    sweep = {"name": "Swell", "pedal": "feet.exp", "presets": "all", "moves": list(rows), **more}
    presets = [{"number": number, "name": "x"} for number in (1, 2, 2, 3)]
    return rig_with(sweep=[sweep], preset=presets)


def test_a_sweep():
    (sweep,) = sweep_with().sweeps
    (move,) = sweep.moves
    assert sweep.presets == (1, 2, 3)
    assert (str(sweep.pedal), move.unit, move.control.id) == ("feet.exp", "delay", "mix")
    assert (move.heel, move.toe) == (Value("0", 0, "0"), Value("50%", 64, "64"))
    assert move.curve == Curve("linear")


@pytest.mark.parametrize(
    ("curve", "read"),
    [
        ("late", Curve("late")),
        ([[100, 90], [0, 10]], Curve("points", ((0, 10), (100, 90)))),
        ([[0, 0], [50, 80], [50, 20], [100, 100]],
         Curve("points", ((0, 0), (50, 80), (50, 20), (100, 100)))),
    ],
)  # fmt: skip
def test_a_curve(curve, read):
    row = {"unit": "delay", "control": "mix", "heel": 0, "toe": 127, "curve": curve}
    assert sweep_with([row]).sweeps[0].moves[0].curve == read


@pytest.mark.parametrize("curve", [[], [[0, 0]], [[0], [1]], [[0, 0], [101, 0]], "steep"])
def test_a_curve_that_makes_no_sense_is_refused(curve):
    row = {"unit": "delay", "control": "mix", "heel": 0, "toe": 127, "curve": curve}
    with pytest.raises(ValidationError):
        sweep_with([row])


@pytest.mark.parametrize(
    ("more", "lack", "where", "nearest", "instead"),
    [
        ({"presets": [1, 33]}, Lack.PRESET, "sweep[Swell].presets", None, None),
        ({"pedal": "feet.exq"}, Lack.SOCKET, "sweep[Swell].pedal", "exp", "feet.exp"),
        ({"pedal": "feat.exp"}, Lack.UNIT, "sweep[Swell].pedal", "feet", "feet.exp"),
        ({"rows": [{"unit": "dealy", "control": "mix", "heel": 0, "toe": 1}]},
         Lack.UNIT, "sweep[Swell].moves[dealy>mix].unit", "delay", "delay"),
        ({"rows": [{"unit": "delay", "control": "max", "heel": 0, "toe": 1}]},
         Lack.CONTROL, "sweep[Swell].moves[delay>max].control", "mix", "mix"),
    ],
)  # fmt: skip
def test_sweeps_that_cannot_be(more, lack, where, nearest, instead):
    (gap,) = sweep_with(**more).unresolved
    assert (gap.lack, str(gap.address), gap.nearest) == (lack, where, nearest)
    assert gap.instead == instead


def test_moves_of_one_control_are_told_apart():
    row = {"unit": "delay", "control": "mix", "heel": 0, "toe": 1}
    rig = sweep_with([row, {**row, "control": "max"}, row, {**row, "control": "max"}])
    (sweep,) = rig.sweeps
    assert [move.entry for move in sweep.moves] == ["delay>mix", "delay>mix#2"]
    assert [str(gap.address.parent) for gap in rig.unresolved] == [
        "sweep[Swell].moves[delay>max]",
        "sweep[Swell].moves[delay>max#2]",
    ]


def test_presets_that_do_not_exist_are_one_gap():
    (gap,) = sweep_with(presets=[77, 1, 33, 77]).unresolved
    assert (gap.found, gap.nearest) == ("77, 33", None)
    assert gap.says == (
        'sweep "Swell" is on presets 77, 33, which do not exist; there are presets 1 to 3'
    )


def test_a_sweep_keeps_what_can_be():
    (sweep,) = sweep_with(presets=[3, 33]).sweeps
    assert sweep.presets == (3,)
    assert sweep_with(pedal="feet.exq").sweeps == ()


def test_songs_of_one_name_are_told_apart():
    songs = [{"name": "One", "presets": [1]}] * 2
    rig = rig_with(song=songs, preset=[{"number": 1, "name": "x"}])
    assert [str(song.address) for song in rig.songs] == ["song[One]", "song[One#2]"]


def test_songs():
    songs = [{"name": "One", "tempo": 90, "presets": [1, 9]}]
    rig = rig_with(song=songs, preset=[{"number": 1, "name": "x"}])
    (song,) = rig.songs
    assert (song.tempo, song.presets, str(song.address)) == (90, (1, 9), "song[One]")
    assert rig.unresolved[0].says.endswith("preset 9, which does not exist; there is only one")
    says = rig_with(song=songs).unresolved[0].says
    assert says.endswith("presets 1, 9, which do not exist; there are none")
    assert [str(gap.address) for gap in rig.unresolved] == ["song[One].presets"]
