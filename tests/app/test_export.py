import io
import re
from itertools import pairwise
from operator import itemgetter

import mido
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rigs import make_chart, make_rig, make_unit
from tests.routed import case_of_two_lines
from tests.samples.reading import AS_FOUND, ORCHARD
from thruline.app.export import (
    Piece,
    bytes_ending,
    export_json,
    file_for_each,
    file_stems,
    in_a_row,
    one_file,
    piece_of,
    pieces,
)
from thruline.app.trace import trace
from thruline.base.errors import CannotUse
from thruline.compose.jobs import Effort
from thruline.midi.decode import decode
from thruline.midi.encode import encode
from thruline.midi.file_encode import TICK_US, encode_file
from thruline.midi.message import ProgramChange, SystemExclusive
from thruline.proof.case import Case
from thruline.proof.example_boards import a_sweep
from thruline.proof.pedals import input_of
from thruline.rig.sweep import values_of
from thruline.timing.play import play
from thruline.timing.sending import ready_times
from thruline.timing.traffic import traffic
from thruline.wiring import open_file

SWELL = a_sweep("Swell", 'unit = "delay", control = "mix", heel = 0, toe = "80%"')


@pytest.fixture(scope="module", params=[ORCHARD, AS_FOUND])
def case(request):
    return Case(open_file(request.param).rig)


def events_of(raw):
    """Ticks and bytes of every message of a file, as the MIDI library reads them; and its marks."""
    file = mido.MidiFile(file=io.BytesIO(raw), charset="utf8")
    ticks, found, marks = 0, [], []
    for message in file.tracks[0]:
        ticks += message.time
        if message.type == "marker":
            marks.append((ticks, message.text))
        elif not message.is_meta:
            found.append((ticks, bytes(message.bytes())))
    return found, marks


def test_files_of_all_presets_hold_the_plan_to_the_tick(case):
    hand, roads = case.board.hand, case.board.roads
    checked = 0
    for preset in case.rig.presets:
        items = case.composed(preset).sending.items
        if not items:
            continue
        times = ready_times(items, gap_us=hand.gap_us, running_status=hand.running_status)
        lengths, statuses = [len(one.data) for one in items], [one.data[0] for one in items]
        line = play(roads.network, [traffic(times, lengths, status=statuses)])[roads.starts[0]]
        meant = [
            ((at_us + TICK_US // 2) // TICK_US, items[place].data)
            for place, at_us in zip(line.ident.tolist(), line.start_us.tolist(), strict=True)
        ]
        (piece,) = pieces(case, [str(preset.number)], seconds=4)
        assert events_of(encode_file(piece.messages, name=piece.title))[0] == meant
        assert piece.data == b"".join(data for _, data in meant)
        checked += 1
    assert checked > 20


def test_files_of_sweeps_go_from_heel_to_toe_and_back_no_faster_than_the_line(case):
    for sweep in case.rig.sweeps:
        (piece,) = pieces(case, [sweep.name], seconds=2)
        found, _ = events_of(encode_file(piece.messages))
        assert b"".join(data for _, data in found) == piece.data
        times = [at for at, _ in piece.messages]
        gaps = [after - before for before, after in pairwise(times)]
        shortest = 2 if case.board.hand.running_status else 3
        assert min(gaps) >= shortest * 320
        values = {value for move in sweep.moves for value in (values_of(move) or ())}
        assert values
        first, last = found[0][1], found[-1][1]
        assert first[2] in {values_of(move)[0] for move in sweep.moves if values_of(move)}
        assert last[2] in {values_of(move)[0] for move in sweep.moves if values_of(move)}
        assert piece.ends_us >= 2_000_000 - 100_000


def test_a_pedal_is_read_no_more_often_than_the_controller_does(case):
    for sweep in case.rig.sweeps:
        able = input_of(case.rig, sweep)
        if able is None or not able.interval_ms or len(sweep.moves) != 1:
            continue
        (piece,) = pieces(case, [sweep.name], seconds=0.5)
        times = [at for at, _ in piece.messages]
        gaps = [after - before for before, after in pairwise(times)]
        assert min(gaps) >= able.interval_ms * 1000 - 2000  # two readings wait for the line


def test_one_file_of_all_has_a_mark_at_each_piece(case):
    those = pieces(case, [], seconds=1)
    row = in_a_row(those)
    found, marks = events_of(encode_file(row.messages, marks=row.marks))
    assert [words for _, words in marks] == [one.title for one in those]
    assert [data for _, data in found] == [
        encode(message) for one in those for _, message in one.messages
    ]
    starts = [tick for tick, _ in marks]
    assert starts == sorted(starts)
    assert all(tick * TICK_US % 1_000_000 == 0 for tick in starts)


@given(st.lists(st.lists(st.integers(0, 5_000_000), min_size=1, max_size=4), max_size=5))
def test_pieces_in_a_row_never_overlap(times):
    those = [
        Piece(
            title=f"preset {number}",
            messages=tuple((at, ProgramChange(1, number)) for at in sorted(one)),
            data=b"",
            ends_us=max(one) + 640,
        )
        for number, one in enumerate(times)
    ]
    row = in_a_row(those)
    assert [at for at, _ in row.messages] == sorted(at for at, _ in row.messages)
    for (begin, _), one, (after, _) in zip(row.marks, those, row.marks[1:], strict=False):
        assert after - begin - one.ends_us >= 1_000_000


@given(st.lists(st.text(max_size=6), max_size=8))
def test_every_piece_has_a_file_of_its_own(titles):
    those = [Piece(title=one, messages=(), data=b"", ends_us=0) for one in titles]
    stems = file_stems(those)
    assert len(set(stems)) == len(stems)
    assert all(re.fullmatch(r"[a-z0-9+-]*", one) for one in stems)


def test_only_system_exclusive_alone_is_called_so():
    exclusive, program = SystemExclusive(b"\x7d\x01"), ProgramChange(1, 2)
    made = [
        Piece(title="x", messages=tuple((0, one) for one in those), data=b"", ends_us=0)
        for those in ([], [exclusive], [program], [exclusive, program])
    ]
    assert [bytes_ending([one]) for one in made] == [".bin", ".syx", ".bin", ".bin"]
    assert bytes_ending([made[1], made[2]]) == ".bin"
    assert decode(encode(exclusive)) == exclusive


def test_what_there_is_nothing_of(case):
    with pytest.raises(CannotUse, match="there is no preset 99"):
        pieces(case, ["99"], seconds=1)
    with pytest.raises(CannotUse, match="did you mean"):
        pieces(case, [case.rig.sweeps[0].name + "x"], seconds=1)


def test_what_a_trace_follows_leaves_at_the_moments_that_it_tells(case):
    for preset in case.rig.presets:
        found = trace(case, preset.number, effort=Effort.FULL)
        piece = piece_of(case, found.sending.items, title="a")
        assert list(piece.messages) == sorted(found.timed_messages, key=itemgetter(0))


def test_without_a_controller_there_is_no_line():
    case = Case(make_rig([make_unit("delay", "bramley", channel=3)], [], [make_chart("bramley")]))
    with pytest.raises(CannotUse, match="no controller with a MIDI OUT"):
        pieces(case, [], seconds=1)
    with pytest.raises(CannotUse, match="no controller with a MIDI OUT"):
        piece_of(case, [], title="a")


def test_files_by_their_names(case):
    those = pieces(case, ["1", "2"], seconds=1)
    files = file_for_each(those, raw=True)
    assert [name.rsplit(".")[-1] for name in files] == ["mid", "bin", "mid", "bin"]
    assert list(files.values())[1] == those[0].data
    assert [words for _, words in events_of(one_file(those, name="x"))[1]] == [
        one.title for one in those
    ]


def test_answer_for_other_programs(case):
    those = pieces(case, ["1"], seconds=1)
    found = export_json(those, ["a.mid"])
    assert found["written"] == ["a.mid"]
    assert found["pieces"][0]["bytes"] == len(those[0].data)


def test_the_messages_of_all_outputs_are_in_the_file_where_the_controller_chooses():
    case = case_of_two_lines()
    items = case.run(case.rig.presets[0]).sending.items
    (piece,) = pieces(case, ("1",), seconds=1)
    assert piece.data == b"".join(item.data for item in items)
    assert [encode(one) for _, one in piece.messages] == [item.data for item in items]


def lines_of(raw):
    """The name and the messages of each track, with their ticks, as the MIDI library reads them."""
    file = mido.MidiFile(file=io.BytesIO(raw), charset="utf8")
    found = []
    for track in file.tracks:
        ticks, said = 0, []
        for message in track:
            ticks += message.time
            if not message.is_meta:
                said.append((ticks, bytes(message.bytes())))
        found.append((track.name, said))
    return file.type, found


@pytest.mark.parametrize("controller", ["pearmain-ten", "gilliflower-two"])
def test_outputs_that_do_not_carry_the_same_have_a_track_each(controller):
    routed = case_of_two_lines(SWELL, controller=controller)
    piece, sweep = pieces(routed, ["1", "Swell"], seconds=1)
    (raw, *_) = file_for_each([piece], raw=False).values()
    kind, (tempo, *tracks) = lines_of(raw)
    assert (kind, tempo[1]) == (1, [])
    run = routed.run(routed.rig.presets[0])
    names = {"pearmain-ten": ("LINE A", "LINE B"), "gilliflower-two": ("OUT L", "OUT R")}[
        controller
    ]
    for (name, said), unit, mark in zip(tracks, ("delay", "echo"), names, strict=True):
        assert name == mark
        meant = [item.data for item in run.sending.items if item.unit == unit]
        assert [data for _, data in said] == meant
        (line,) = routed.board.roads.inputs[unit]
        starts = [one.arrival.start_us for one in run.heard[unit]]
        assert [(at + TICK_US // 2) // TICK_US for at in starts] == [tick for tick, _ in said]
        assert line in routed.board.roads.starts
    _, (_, moved, still) = lines_of(one_file([sweep], name="all"))
    assert len(moved[1]) > 20
    assert still[1] == []


def test_tracks_in_a_row_begin_where_their_marks_stand():
    those = pieces(case_of_two_lines(SWELL), [], seconds=1)
    raw = one_file(those, name="all")
    _, (_, *tracks) = lines_of(raw)
    file = mido.MidiFile(file=io.BytesIO(raw), charset="utf8")
    ticks, marks = 0, []
    for message in file.tracks[0]:
        ticks += message.time
        if message.type == "marker":
            marks.append((ticks, message.text))
    assert [words for _, words in marks] == [one.title for one in those]
    said = sorted(one for _, track in tracks for one in track)
    assert len(said) == sum(len(one.messages) for one in those)
    assert [tick for tick, _ in said if tick < marks[1][0]] == [
        tick for tick, _ in said[: len(those[0].messages)]
    ]


def test_raw_bytes_of_outputs_are_files_of_their_own():
    (piece,) = pieces(case_of_two_lines(), ["1"], seconds=1)
    files = file_for_each([piece], raw=True)
    assert [*files] == ["preset-001-overture.mid", "preset-001-overture-line-a.bin",
                        "preset-001-overture-line-b.bin"]  # fmt: skip
    _, (_, *tracks) = lines_of(files["preset-001-overture.mid"])
    assert [b"".join(data for _, data in said) for _, said in tracks] == [*files.values()][1:]
