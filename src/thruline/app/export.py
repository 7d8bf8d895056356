"""Presets and sweeps as the controller puts them on its line, ready for files of open standards."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from thruline.app.frame import Json, answer
from thruline.app.load import pick_preset
from thruline.app.send import sweep_called
from thruline.audit.digits import is_number
from thruline.base.errors import CannotUse
from thruline.bench.travel import Treadle, travel
from thruline.midi.decode import decode
from thruline.midi.encode import encode
from thruline.midi.file_encode import encode_file, encode_tracks
from thruline.midi.message import SystemExclusive, TimedMessage
from thruline.proof.case import Case
from thruline.proof.pedals import input_of
from thruline.rig.cable import Jack
from thruline.rig.preset import Preset
from thruline.rig.sweep import Sweep
from thruline.rig.unit import marked
from thruline.timing.flow import Flow
from thruline.timing.play import play
from thruline.timing.sending import Item, ready_times
from thruline.timing.shares import traffic_of

REST_US = 1_000_000
"""At least so long it is quiet between two pieces in one file."""
EXCLUSIVE = ".syx"
BYTES = ".bin"
"""What a file of raw bytes is called: the first only if it holds system exclusive alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A preset or a sweep: its messages, each with us from the start to its first byte.

    `data` are the bytes of all messages, each with its status; the last has left at `ends_us`.
    `tracks` are the messages of each output, by what is printed beside it, where the controller
    chooses one for each; empty where all outputs carry the same.
    """

    title: str
    messages: tuple[TimedMessage, ...]
    data: bytes
    ends_us: int
    tracks: tuple[tuple[str, tuple[TimedMessage, ...]], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Pieces one after the other, and where each begins; `tracks` as of a piece."""

    messages: tuple[TimedMessage, ...]
    marks: tuple[tuple[int, str], ...]
    tracks: tuple[tuple[str, tuple[TimedMessage, ...]], ...] = ()


def pieces(case: Case, wanted: Sequence[str], *, seconds: float) -> tuple[Piece, ...]:
    """The presets (by number) and sweeps (by name) that are wanted; all of them if none is named.

    A sweep goes from heel to toe and back in so many `seconds`. Of all, those that send nothing
    over MIDI are left out. Raises CannotUse when there is nothing of that name, when it sends
    nothing, or when there is no controller to send it.
    """
    _refuse_without_line(case)
    if wanted:
        return tuple(_named(case, word, seconds=seconds) for word in wanted)
    presets = (_of_preset(case, preset) for preset in case.rig.presets)
    sweeps = (_of_sweep(case, sweep, seconds=seconds) for sweep in case.rig.sweeps)
    return tuple(one for one in (*presets, *sweeps) if one.messages)


def _refuse_without_line(case: Case) -> None:
    if not case.board.roads.starts:
        raise CannotUse(
            "nothing can be put on a line: this rig has no controller with a MIDI OUT that is "
            'known to send; name one in [rig], as in controller = "feet"'
        )


def _named(case: Case, word: str, *, seconds: float) -> Piece:
    if is_number(word):
        piece = _of_preset(case, pick_preset(case.rig, word))
    else:
        piece = _of_sweep(case, sweep_called(case, word), seconds=seconds)
    if not piece.messages:
        raise CannotUse(f"{piece.title} sends nothing over MIDI")
    return piece


def _of_preset(case: Case, preset: Preset) -> Piece:
    """What is composed for a preset."""
    return piece_of(case, case.composed(preset).sending.items, title=f"preset {preset.title}")


def piece_of(case: Case, items: Sequence[Item], *, title: str) -> Piece:
    """Messages put on the line one after the other, at the pace of the controller.

    Raises CannotUse when there is no controller to send them.
    """
    _refuse_without_line(case)
    hand = case.board.hand
    ready = ready_times(items, gap_us=hand.gap_us, running_status=hand.running_status)
    return _piece(case, items, ready, title=title)


def _of_sweep(case: Case, sweep: Sweep, *, seconds: float) -> Piece:
    """A pedal moved from heel to toe and back: values that change, no sooner than it is read."""
    treadle, able = Treadle(case.rig, sweep), input_of(case.rig, sweep)
    items: list[Item] = []
    ready: list[int] = []
    for at_us, place in _readings(seconds, (able.interval_ms if able else None) or 0):
        moved = treadle.move_to(place)
        items += moved
        ready += [at_us] * len(moved)
    return _piece(case, items, ready, title=f"sweep {sweep.name}")


def _readings(seconds: float, interval_ms: int) -> Iterator[tuple[int, int]]:
    """Moments at which the controller reads the pedal, and the place at which it then stands."""
    places = list(travel(seconds))
    due_us = 0
    for at_us, place in places:
        if at_us >= due_us or at_us == places[-1][0]:
            yield max(at_us, due_us), place
            due_us = max(at_us, due_us) + interval_ms * 1000


def _piece(case: Case, items: Sequence[Item], ready: Sequence[int], *, title: str) -> Piece:
    """Messages played onto the first line of the controller, in the order in which they leave.

    Onto all its lines, where it chooses between them.
    """
    roads = case.board.roads
    lines = roads.starts if roads.senders > 1 else roads.starts[:1]
    flows = play(roads.network, traffic_of(roads, items, ready))
    sent: dict[int, int] = {}
    for flow in (flows[line] for line in lines):
        for place, start_us in zip(flow.ident.tolist(), flow.start_us.tolist(), strict=True):
            sent.setdefault(place, start_us)
    leaving = sorted(sent, key=lambda place: sent[place])
    raw, starts = [items[place].data for place in leaving], [sent[place] for place in leaving]
    return Piece(
        title=title,
        messages=tuple((at_us, decode(data)) for at_us, data in zip(starts, raw, strict=True)),
        data=b"".join(raw),
        ends_us=max((end for line in lines for end in flows[line].end_us.tolist()), default=0),
        tracks=tuple(_tracks(case, items, flows)) if roads.senders > 1 else (),
    )


def _tracks(
    case: Case, items: Sequence[Item], flows: Sequence[Flow]
) -> Iterator[tuple[str, tuple[TimedMessage, ...]]]:
    """What leaves by each output of the controller, at its own moments there."""
    controller, roads = case.rig.controller, case.board.roads
    if controller is None:
        return
    for socket in case.board.routing.outputs:
        flow = flows[roads.line_of[Jack(controller.id, socket)]]
        places = zip(flow.ident.tolist(), flow.start_us.tolist(), strict=True)
        timed = tuple((start_us, decode(items[place].data)) for place, start_us in places)
        yield marked(controller, socket), timed


def in_a_row(those: Sequence[Piece]) -> Row:
    """Pieces one after the other, each from a whole second on, and named where it begins."""
    messages: list[TimedMessage] = []
    tracks: dict[str, list[TimedMessage]] = {}
    marks = []
    begin_us = 0
    for one in those:
        marks.append((begin_us, one.title))
        messages += [(begin_us + at_us, message) for at_us, message in one.messages]
        for line, timed in one.tracks:
            tracks.setdefault(line, []).extend((begin_us + at, message) for at, message in timed)
        begin_us += -(-(one.ends_us + REST_US) // 1_000_000) * 1_000_000
    lines = tuple((line, tuple(timed)) for line, timed in tracks.items())
    return Row(messages=tuple(messages), marks=tuple(marks), tracks=lines)


def encoded(one: Piece | Row, *, name: str, marks: Sequence[tuple[int, str]] = ()) -> bytes:
    """A MIDI file of one track; where outputs differ in what they carry, of one for each."""
    if one.tracks:
        return encode_tracks(one.tracks, name=name, marks=marks)
    return encode_file(one.messages, name=name, marks=marks)


def one_file(those: Sequence[Piece], *, name: str) -> bytes:
    """A MIDI file of all, one after the other, with a marker where each begins.

    Outputs that do not carry the same have a track each.
    """
    row = in_a_row(those)
    return encoded(row, name=name, marks=row.marks)


def file_for_each(those: Sequence[Piece], *, raw: bool) -> Mapping[str, bytes]:
    """A MIDI file for each, and with `raw` its bytes beside it, by the names of the files.

    Bytes of outputs that do not carry the same are in a file each.
    """
    files = {}
    for one, stem in zip(those, file_stems(those), strict=True):
        files[f"{stem}.mid"] = encoded(one, name=one.title)
        if raw and one.tracks:
            for line, timed in one.tracks:
                data = b"".join(encode(message) for _, message in timed)
                files[f"{stem}-{_slug(line)}{bytes_ending([one])}"] = data
        elif raw:
            files[f"{stem}{bytes_ending([one])}"] = one.data
    return files


def file_stems(those: Sequence[Piece]) -> tuple[str, ...]:
    """For each piece a name that a file can have on every system: `preset-003-ferry`."""
    stems: list[str] = []
    for one in those:
        stem = _slug(one.title)
        same = sum(other == stem or other.startswith(f"{stem}+") for other in stems)
        stems.append(f"{stem}+{same + 1}" if same else stem)
    return tuple(stems)


def _slug(words: str) -> str:
    found = re.findall(r"[a-z0-9]+", words.lower())
    return "-".join(f"{word:0>3}" if word.isdecimal() else word for word in found)[:80]


def bytes_ending(those: Sequence[Piece]) -> str:
    """What a file of these raw bytes is called: only system exclusive may stand in `.syx`."""
    messages = [message for one in those for _, message in one.messages]
    alone = all(isinstance(message, SystemExclusive) for message in messages)
    return EXCLUSIVE if messages and alone else BYTES


def export_json(those: Sequence[Piece], written: Sequence[str]) -> Json:
    """What was written, for other programs."""
    return answer(
        "export",
        pieces=[
            {
                "title": one.title,
                "messages": len(one.messages),
                "bytes": len(one.data),
                "ends_us": one.ends_us,
            }
            for one in those
        ],
        written=list(written),
    )
