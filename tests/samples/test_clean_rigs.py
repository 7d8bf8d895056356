"""The sample rigs that are right, by plain arithmetic: what one would check with a pencil."""

from collections import Counter
from itertools import combinations

import pytest

from tests.samples.reading import FIRST_BOARD, ORCHARD, plain, rig
from thruline.rig.chart import Traffic, Way
from thruline.rig.preset import Preset
from thruline.rig.socket import SocketKind, plug_fits
from thruline.rig.unit import (
    Unit,
    is_omni,
    sends,
    takes_clock,
    takes_control,
    takes_program,
    way_of,
)
from thruline.rig.values import ControlKind, NotUnderstood, zone_of
from thruline.rig.whole import Rig

MOST_COPIES = 3
"""Electrical copies in a row, above which the standard advises against (MIDI 1.0)."""


@pytest.fixture(params=[ORCHARD, FIRST_BOARD], ids=lambda file: file.parent.name)
def file(request):
    return request.param


@pytest.fixture
def board(file) -> Rig:
    return rig(file)


def listening(board: Rig) -> list[Unit]:
    return [unit for unit in board.units.values() if unit.chart.listens]


def placed(board: Rig) -> list[Unit]:
    return [unit for unit in board.units.values() if unit.place is not None]


def corners(unit: Unit) -> tuple[int, int, int, int]:
    """Left, back, right and front of a unit on the board, mm; none is turned here."""
    assert unit.place is not None
    assert unit.chart.size is not None
    left, back = unit.place.x, unit.place.y
    return left, back, left + unit.chart.size.width, back + unit.chart.size.depth


def spot(unit: Unit, socket_id: str) -> tuple[int, int]:
    """Where a socket is on the board, mm."""
    left, back, right, front = corners(unit)
    place = unit.chart.sockets[socket_id].place
    assert place is not None
    return {
        "back": (left + place.along, back),
        "front": (left + place.along, front),
        "left": (left, back + place.along),
        "right": (right, back + place.along),
        "top": (left + place.along, back),
    }[place.side]


def heard(board: Rig) -> dict[str, tuple[list[str], int]]:
    """For each unit: the units on the way to it, and the electrical copies in a row before it."""
    assert board.controller is not None
    found: dict[str, tuple[list[str], int]] = {}
    lines: list[tuple[str, list[str], int]] = [(board.controller.id, [], 0)]
    while lines:
        unit_id, way, copies = lines.pop()
        unit = board.units[unit_id]
        for cable in board.cables:
            socket = unit.chart.sockets.get(cable.start.socket)
            if cable.start.unit != unit_id or socket is None or socket.kind != SocketKind.MIDI_OUT:
                continue
            does = way_of(unit, cable.start.socket)
            if unit is not board.controller and (does is None or not does.forwards):
                continue
            row = copies + 1 if does is Way.THRU_WIRE else 0
            assert cable.stop.unit not in found, f"{cable.stop.unit} is reached twice"
            found[cable.stop.unit] = ([*way, unit_id], row)
            lines.append((cable.stop.unit, [*way, unit_id], row))
    return found


def messages(board: Rig, preset: Preset) -> int:
    """How many messages a preset takes in the controller."""
    count = 0
    for goal in preset.goals:
        numbering = board.units[goal.unit].chart.programs
        if goal.program is not None and numbering is not None:
            count += {"none": 1, "msb": 2, "lsb": 2, "both": 3}[numbering.bank_bytes]
        count += sum(2 if one.control.high > 127 else 1 for one in goal.controls)
    return count


def test_nothing_is_left_open(board):
    assert board.unresolved == ()
    assert board.controller is not None
    assert board.acceptances == ()


def test_the_names_of_the_presets_fit_the_display(board):
    can = board.controller.chart.abilities
    assert all(len(preset.name) <= can.name_length for preset in board.presets)
    names = [preset.name for preset in board.presets]
    assert len(names) == len(set(names)) <= can.presets
    assert [preset.number for preset in board.presets] == list(range(1, len(names) + 1))


# --- the board ---


def test_units_stand_on_the_board_and_beside_each_other(board):
    for unit in placed(board):
        left, back, right, front = corners(unit)
        assert 0 <= left < right <= board.board.width
        assert 0 <= back < front <= board.board.depth
    for one, other in combinations(placed(board), 2):
        a, b = corners(one), corners(other)
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{one.id} and {other.id}"


def test_every_cable_reaches_and_none_is_far_too_long(board):
    for cable in board.cables:
        start, stop = board.units[cable.start.unit], board.units[cable.stop.unit]
        assert cable.length is not None
        if start.place is None or stop.place is None:
            continue
        (x0, y0), (x1, y1) = spot(start, cable.start.socket), spot(stop, cable.stop.socket)
        way = abs(x0 - x1) + abs(y0 - y1)
        assert way + 50 <= cable.length <= 2 * way + 350, f"{cable.name}: {way} mm apart"


def test_every_socket_has_one_cable_with_plugs_that_fit(board):
    ends = [str(jack) for cable in board.cables for jack in (cable.start, cable.stop)]
    assert [jack for jack, count in Counter(ends).items() if count > 1] == []
    for cable in board.cables:
        for jack, plug in zip((cable.start, cable.stop), cable.plugs, strict=True):
            connector = board.units[jack.unit].chart.sockets[jack.socket].connector
            assert plug_fits(plug, connector)
            assert plug.startswith(connector[:3])  # no two-contact plug in a three-contact socket


# --- power ---


def test_every_unit_has_an_outlet_that_suits_it(board):
    leads = {str(cable.stop): cable for cable in board.cables}
    for unit in board.units.values():
        need = unit.chart.power
        if need is None:
            continue
        lead = leads[f"{unit.id}.power-in"]
        outlet = board.units[lead.start.unit].chart.outlets[lead.start.socket]
        assert need.millivolts <= outlet.millivolts <= need.most_millivolts
        assert (need.polarity, need.ac) == (outlet.polarity, outlet.ac)
        assert need.milliamps * need.start_percent / 100 <= 0.8 * outlet.milliamps, unit.id
        assert outlet.isolated or need.digital is False


def test_no_supply_is_asked_for_too_much(board):
    for supply in (unit for unit in board.units.values() if unit.chart.outlets):
        fed = [board.units[lead.stop.unit] for lead in board.cables if lead.start.unit == supply.id]
        needs = [unit.chart.power for unit in fed]
        drawn = sum(
            need.millivolts * need.milliamps * need.start_percent / 100_000 for need in needs
        )
        assert drawn <= 0.8 * supply.chart.supply_milliwatts


# --- MIDI ---


def test_every_unit_is_reached_once_and_over_few_copies(board):
    found = heard(board)
    for unit in listening(board):
        assert found[unit.id][1] <= MOST_COPIES, unit.id


def test_what_is_on_the_way_passes_everything_on(board):
    for way, _ in heard(board).values():
        for unit_id in way[1:]:
            for output in board.units[unit_id].chart.outputs.values():
                assert output.blocks <= {Traffic.SYSTEM_EXCLUSIVE}


def test_every_unit_has_a_channel_of_its_own(board):
    units = listening(board)
    channels = [channel for unit in units for channel in unit.channels]
    assert len(channels) == len(set(channels))
    assert 1 not in channels
    for unit in units:
        assert unit.channel in unit.chart.channel.allowed
        assert unit.sent_on == unit.channel
        assert is_omni(unit) is False


def test_every_unit_takes_what_it_is_sent(board):
    for preset in board.presets:
        for goal in preset.goals:
            unit = board.units[goal.unit]
            assert not goal.program or takes_program(unit)
            assert not goal.controls or takes_control(unit)
    for sweep in board.sweeps:
        assert all(takes_control(board.units[move.unit]) for move in sweep.moves)


def test_there_is_one_clock_for_those_who_follow_one(board):
    masters = [unit.id for unit in board.units.values() if sends(unit, "clock")]
    followers = {unit.id for unit in listening(board) if takes_clock(unit)}
    assert len(masters) == (1 if followers else 0)
    assert followers <= set(heard(board))


# --- presets ---


def test_presets_ask_for_what_there_is(board):
    for preset in board.presets:
        for goal in preset.goals:
            assert goal.program is None or goal.program.wire is not None
            for one in goal.controls:
                assert not isinstance(one.value, NotUnderstood)
                assert one.control.kind not in (ControlKind.TOGGLE_ANY, ControlKind.MOMENTARY)
                assert not one.control.zones or zone_of(one.control, one.value.wire) is not None


def test_presets_leave_nothing_over(board):
    """Every unit with programs gets one, every loop its state, and what is set is stored."""
    hung = {inside for stage in board.audio.stages for inside in stage.inside}
    for preset in board.presets:
        wanted = {goal.unit: goal for goal in preset.goals}
        for unit in listening(board):
            if unit.chart.programs is not None:
                assert wanted[unit.id].program is not None
        assert all(wanted[unit_id].in_loop is not None for unit_id in hung)
        assert all(one.control.stored for goal in preset.goals for one in goal.controls)


def test_a_swept_control_suits_and_is_stored_or_swept_always(board):
    for sweep in board.sweeps:
        for move in sweep.moves:
            assert move.control.stored or len(sweep.presets) == len(board.presets)
            assert move.control.expression == "good"
            assert not isinstance(move.heel, NotUnderstood)
            assert not isinstance(move.toe, NotUnderstood)


def test_no_pedal_has_two_jobs_at_once_and_none_fights_a_preset(board):
    for preset in board.presets:
        active = [sweep for sweep in board.sweeps if preset.number in sweep.presets]
        pedals = [str(sweep.pedal) for sweep in active]
        assert len(pedals) == len(set(pedals))
        moved = [(move.unit, move.control.id) for sweep in active for move in sweep.moves]
        held = {(goal.unit, one.control.id) for goal in preset.goals for one in goal.controls}
        assert len(moved) == len(set(moved))
        assert not held & set(moved)


def test_a_pedal_can_do_what_it_is_asked_and_speaks_on_recall(board):
    for sweep in board.sweeps:
        can = board.controller.chart.pedals[sweep.pedal.socket]
        assert len(sweep.moves) <= can.moves
        assert {move.curve.name for move in sweep.moves} <= can.curves
        assert can.on_recall
        for move in sweep.moves:
            assert can.reverse or move.heel.wire <= move.toe.wire
            assert 1000 / can.interval_ms <= board.units[move.unit].chart.receives.longest_rate


def test_presets_fit_into_the_controller_and_into_a_sixteenth(board):
    """A careful bound: all messages one after another, then the slowest unit of all."""
    can = board.controller.chart.abilities
    for preset in board.presets:
        count = messages(board, preset)
        assert count <= can.messages
        settles = [board.units[goal.unit].chart.settle for goal in preset.goals]
        slowest = max(settle.load_us + settle.apply_us for settle in settles if settle)
        tempos = [song.tempo for song in board.songs if preset.number in song.presets]
        sixteenth = min(15_000_000 // tempo for tempo in tempos)
        assert count * (960 + can.gap_us) + slowest < min(sixteenth, board.slowest_change_us)


def test_every_preset_is_in_the_set_and_every_song_has_a_tempo(board):
    played = {number for song in board.songs for number in song.presets}
    assert played == {preset.number for preset in board.presets}
    assert all(song.tempo for song in board.songs)


# --- the rest ---


def test_every_unit_with_sound_is_on_the_path(board):
    sounding = {
        unit.id
        for unit in board.units.values()
        if any(socket.kind is SocketKind.AUDIO_IN for socket in unit.chart.sockets.values())
    }
    owners = {stage.unit for stage in board.audio.stages if stage.loop}
    assert sounding == set(board.audio.units) | owners


def test_every_unit_says_all_its_settings(file, board):
    """So that the settings sheet of the book is complete."""
    for entry in plain(file)["unit"]:
        assert set(entry.get("settings", {})) == set(board.units[entry["id"]].chart.settings)


def test_the_file_teaches_and_says_that_it_is_invented(file):
    rows = file.read_text(encoding="utf-8").splitlines()
    assert "invented" in plain(file)["rig"]["about"].lower()
    assert max(map(len, rows)) <= 100
    assert sum("#" in row for row in rows) >= 40
