"""What should come over the lines that are listened to, press by press, as columns of numbers."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import NamedTuple
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from thruline.audit.travels import ends_of
from thruline.base.errors import CannotUse
from thruline.proof.case import Case
from thruline.rig.cable import Jack
from thruline.rig.preset import Preset
from thruline.rig.sweep import Sweep, values_of
from thruline.rig.whole import Rig
from thruline.timing.network import Network, Output
from thruline.timing.network import sources as heard_by_line
from thruline.timing.roads import Roads

Column = NDArray[np.int64]
Mask = NDArray[np.bool_]

PROGRAM, CONTROL = 0xC, 0xB
NO_KEY = -1
"""In place of a key: nothing is heard."""


class Step(NamedTuple):
    """Something a person does: presses a preset (its number), or moves a sweep (its name)."""

    preset: int | None
    sweep: str | None
    title: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rows:
    """One row for each message that should be heard at each tap; all columns have one length.

    `kind` is the high half of the status byte, `travel` says that a whole travel of a pedal is
    meant: then `first` is what `travels.code_of` makes of its control, and `second` holds its first
    and last value. `place` is the message's place in what the preset sends, of a travel that of its
    move. `old` are rows of an earlier version.
    """

    step: Column
    unit: Column
    kind: Column
    channel: Column
    first: Column
    second: Column
    tap: Column
    place: Column
    travel: Mask
    old: Mask

    def at(self, places: NDArray[np.intp]) -> "Rows":
        """Some of the rows."""
        return Rows(**{one.name: getattr(self, one.name)[places] for one in fields(self)})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Meant:
    """Everything that is meant, and what the mistakes in the vocabulary are about.

    `units` are ids and `channels` what each is addressed on (0 to 15). `lines` are outputs that
    pass something on; `cut[line, tap, status]` says that a message would no longer reach a tap if
    that output passed nothing on. `own` is for each of these lines the channel of its unit, or -1.
    `presets` is how many of the steps are presets; the others are sweeps. `case` is the rig that
    all this was made from, `before` its earlier version.
    """

    case: Case
    before: Case | None
    steps: tuple[Step, ...]
    presets: int
    units: tuple[str, ...]
    channels: Column
    taps: tuple[str, ...]
    lines: tuple[Jack, ...]
    cut: Mask
    own: Column
    rows: Rows
    changed: tuple[int, ...]


class _Row(NamedTuple):
    step: int
    unit: int
    kind: int
    channel: int
    first: int
    second: int
    tap: int
    place: int
    travel: bool
    old: bool


def meant_by(case: Case, taps: Sequence[str], *, before: Case | None = None) -> Meant:
    """What a press on each preset and a travel of each sweep should put on the lines at `taps`.

    `before` is an earlier version of the rig, against which changes that were never written to the
    controller show. Raises CannotUse when there is no controller or a tap is no MIDI socket.
    """
    rig, roads = case.rig, case.board.roads
    if rig.controller is None:
        raise CannotUse('this rig has no controller; name one in [rig], as in controller = "feet"')
    lines_of = [line_at(rig, roads, tap) for tap in taps]
    units = tuple(one.id for one in rig.units.values() if one.sent_on is not None)
    places = {name: place for place, name in enumerate(units)}
    steps = (
        *_preset_steps(rig),
        *(Step(None, one.name, f'sweep "{one.name}"') for one in rig.sweeps),
    )
    heard = [_passes(roads.network, sender) for sender in range(roads.senders)]
    found = list(_rows(case, places, old=False))
    changed: tuple[int, ...] = ()
    if before is not None:
        rows, changed = _old_rows(case, before, places, found)
        found += rows
    passing = [line for line, one in enumerate(roads.network.lines) if heard_by_line(one)]
    jacks = {line: jack for jack, line in roads.line_of.items()}
    return Meant(
        case=case,
        before=before,
        steps=steps,
        presets=len(rig.presets),
        units=units,
        channels=np.array([(rig.units[name].sent_on or 1) - 1 for name in units], np.int64),
        taps=tuple(taps),
        lines=tuple(jacks[line] for line in passing),
        cut=_cuts(roads.network, heard, passing=passing, taps=lines_of),
        own=np.array([_own_channel(rig, jacks[line]) for line in passing], np.int64),
        rows=_columns(found, heard, lines_of, senders=[roads.sender_of.get(one) for one in units]),
        changed=changed,
    )


def _preset_steps(rig: Rig) -> list[Step]:
    return [Step(one.number, None, f"preset {one.title}") for one in rig.presets]


def _own_channel(rig: Rig, jack: Jack) -> int:
    sent_on = rig.units[jack.unit].sent_on
    return -1 if sent_on is None else sent_on - 1


def line_at(rig: Rig, roads: Roads, tap: str) -> int:
    """The line of a socket: what an output sends, or what comes to an input.

    Raises CannotUse when it is no MIDI socket of the rig.
    """
    unit, _, socket = tap.partition(".")
    jack = Jack(unit, socket)
    if jack in roads.line_of:
        return roads.line_of[jack]
    kind = rig.units[unit].chart.sockets.get(socket) if unit in rig.units else None
    arriving = roads.inputs.get(unit, ()) if kind is not None else ()
    if len(arriving) == 1:
        return arriving[0]
    known = ", ".join(str(one) for one in roads.line_of)
    raise CannotUse(f'"{tap}" is no MIDI output of this rig to listen at; there are {known}')


def default_taps(case: Case) -> tuple[str, ...]:
    """Where one listens if nothing is said: at the controller's first output that is plugged in."""
    roads = case.board.roads
    jacks = {line: jack for jack, line in roads.line_of.items()}
    heard = {line for lines in roads.inputs.values() for line in lines}
    starts = [line for line in roads.starts if line in heard] or [*roads.starts]
    return (str(jacks[starts[0]]),) if starts else ()


def _rows(case: Case, places: Mapping[str, int], *, old: bool) -> Iterable[_Row]:
    for step, preset in enumerate(case.rig.presets):
        yield from preset_rows(case, preset, places, step=step, old=old)
    for number, sweep in enumerate(case.rig.sweeps):
        yield from sweep_rows(case.rig, sweep, places, step=len(case.rig.presets) + number)


def preset_rows(
    case: Case, preset: Preset, places: Mapping[str, int], *, step: int, old: bool
) -> Iterable[_Row]:
    """The messages of one press, by the unit that each is for."""
    for place, item in enumerate(case.run(preset).sending.items):
        kind, channel, first, second = parts_of(item.data)
        unit = places.get(item.unit or "", -1)
        yield _Row(step, unit, kind, channel, first, second, 0, place, travel=False, old=old)


def parts_of(data: bytes) -> tuple[int, int, int, int]:
    """A message as kind, channel and two numbers; longer ones by a sum of their bytes."""
    if data[0] >= 0xF0 or len(data) > 3:
        mark = crc32(data)
        return 0xF, data[0] & 0x0F, mark & 0x7F, mark >> 7 & 0x3FFF
    return data[0] >> 4, data[0] & 0x0F, data[1], data[2] if len(data) > 2 else 0


def sweep_rows(rig: Rig, sweep: Sweep, places: Mapping[str, int], *, step: int) -> Iterable[_Row]:
    """A travel from heel to toe: for each part of each control where it begins and ends."""
    for place, move in enumerate(sweep.moves):
        values, unit = values_of(move), rig.units[move.unit]
        if not values or unit.sent_on is None:
            continue
        for code, heel, toe in ends_of(move.control, values[0], values[-1]):
            yield _Row(
                step, places[unit.id], CONTROL, unit.sent_on - 1, code, heel << 7 | toe, 0, place,
                travel=True, old=False,
            )  # fmt: skip


def _old_rows(
    case: Case, before: Case, places: Mapping[str, int], new: list[_Row]
) -> tuple[list[_Row], tuple[int, ...]]:
    """The rows of presets that an earlier version had otherwise, and which steps these are."""
    now: dict[int, list[_Row]] = {}
    for row in new:
        now.setdefault(row.step, []).append(row)
    found: list[_Row] = []
    changed = []
    for step, preset in enumerate(case.rig.presets):
        earlier = before.rig.preset(preset.number)
        rows = (
            [] if earlier is None else [*preset_rows(before, earlier, places, step=step, old=True)]
        )
        same = sorted(row._replace(old=False) for row in rows) == sorted(now.get(step, []))
        if not same:
            changed.append(step)
            found += rows
    return found, tuple(changed)


def _columns(
    found: Sequence[_Row],
    heard: Sequence[Sequence[Mask]],
    lines: Sequence[int],
    *,
    senders: Sequence[int | None],
) -> Rows:
    """The rows as columns, once for each tap that hears them.

    `heard` holds what gets to each line for each sender, `senders` that of each unit; what is for
    no unit, or for one without a sender of its own, leaves by all of them.
    """
    everyone = range(len(heard))
    own = [everyone if one is None else (one,) for one in (*senders, None)]
    spread = [
        row._replace(tap=tap)
        for tap, line in enumerate(lines)
        for row in found
        if any(heard[one][line][min(0xFF, row.kind << 4 | row.channel)] for one in own[row.unit])
    ]
    table = np.array(spread, np.int64).reshape(-1, len(_Row._fields))
    columns = dict(zip(_Row._fields, np.ascontiguousarray(table.T), strict=True))
    truths = {name: columns.pop(name).astype(np.bool_) for name in ("travel", "old")}
    return Rows(**columns, **truths)


def _passes(network: Network, sender: int, *, without: int | None = None) -> list[Mask]:
    """For each line which status bytes of a sender get to it; `without` passes nothing on."""
    found = [np.zeros(256, np.bool_) for _ in network.lines]
    for index in network.in_order:
        line = network.lines[index]
        if isinstance(line, Output) and line.sender == sender:
            found[index][:] = True
        if index == without:
            continue
        if isinstance(line, Output):
            for feed in line.feeds:
                passing = found[feed.source].copy()
                passing[list(feed.blocks)] = False
                found[index] |= passing
        else:
            found[index] |= found[line.source]
    return found


def _cuts(
    network: Network,
    heard: Sequence[Sequence[Mask]],
    *,
    passing: Sequence[int],
    taps: Sequence[int],
) -> Mask:
    """For each line that passes on, and each tap, the status bytes that would be lost there."""
    cut = np.zeros((len(passing), len(taps), 256), np.bool_)
    for place, line in enumerate(passing):
        for sender, whole in enumerate(heard):
            left = _passes(network, sender, without=line)
            for tap, tapped in enumerate(taps):
                cut[place, tap] |= whole[tapped] & ~left[tapped]
    return cut
