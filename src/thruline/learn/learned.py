"""All that captures of a controller tell, in its own terms: channels, numbers and values."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from thruline.audit.capture import Capture
from thruline.learn.agree import Agreed, Weigh, agree, own_time
from thruline.learn.parts import Cut, Message, Part, cut
from thruline.learn.presses import Group, Press, grouped, numbered, weigher
from thruline.learn.sweeps import LearnedSweep, Seen, sweeps_of
from thruline.learn.travels import Moved, Split, Track, reached, split

CLOCKS_LEAST = 24
"""As many clock bytes are a clock: a quarter note (MIDI 1.0)."""
MINUTE_US = 60_000_000
ELSEWHERE = 6
"""Steps between where a pedal was left and what came that no lost message accounts for."""
SEVEN_BITS = 127


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedPreset:
    """What one preset sends. `is_numbered` says that a person gave the number."""

    number: int
    name: str
    is_numbered: bool
    agreed: tuple[Agreed, ...]
    presses: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """Where the messages of the captures went; `malformed` are pieces that were none."""

    heard: int
    to_presets: int
    to_sweeps: int
    malformed: int

    @property
    def left(self) -> int:
        """Messages that belong to nothing: garbled, or sent by something else."""
        return self.heard - self.to_presets - self.to_sweeps

    @property
    def share(self) -> float:
        """Messages that have a place, of all that were heard; 1 where nothing was."""
        return (self.to_presets + self.to_sweeps) / self.heard if self.heard else 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """The controller. `own_us` is its own time for a message, `clock_bpm` the tempo it sends."""

    presets: tuple[LearnedPreset, ...]
    sweeps: tuple[LearnedSweep, ...]
    own_us: int
    running_status: bool
    clock_bpm: int | None
    account: Account


@dataclass(frozen=True, slots=True, kw_only=True)
class _Recall:
    """What came of a pedal's control with a press; `last` is what it was last moved to."""

    serial: int
    line: int
    moved: Moved
    value: int
    last: int | None
    raw: tuple[Message, ...]


_Own = frozenset[tuple[int, Moved]]
"""Presets, and controls that they set themselves although a pedal moves them too."""


def learn(
    captures: Sequence[Capture], knows: Callable[[bytes], bool | None] = lambda _: None
) -> Learned:
    """What some captures tell. `knows` says whether a chart knows a message; None without one."""
    whole = cut(captures)
    splits = [split(part.messages) for part in whole.parts]
    presses, recalls = _presses(whole.parts, splits)
    weigh = weigher(presses, knows)
    groups = numbered([one for one in grouped(presses) if _is_one(one, weigh)])
    number_of = {serial: number for number, one in groups for serial in one.serials}
    own = _own(recalls, number_of)
    for number, group in groups:
        group.presses = [_restored(press, number, recalls, own) for press in group.presses]
    presets = [_preset(number, group, weigh) for number, group in groups]
    running = whole.running_status
    return Learned(
        presets=tuple(sorted(presets, key=_number)),
        sweeps=sweeps_of(_seen(whole.parts, splits, number_of), _recalled(recalls, number_of, own)),
        own_us=own_time([one.agreed for one in presets], running_status=running),
        running_status=running,
        clock_bpm=_tempo(whole),
        account=_account(whole.parts, splits, groups, presets),
    )


def _number(preset: LearnedPreset) -> int:
    return preset.number


def _presses(parts: Sequence[Part], splits: Sequence[Split]) -> tuple[list[Press], list[_Recall]]:
    """What presets sent at each press, and beside it what pedals gave at the recall."""
    together = [frozenset(one.tracks) for one in splits]
    pedals = frozenset().union(*together)
    last: dict[tuple[int, Moved], int] = {}
    presses, recalls, take = [], [], 0
    for part, found in zip(parts, splits, strict=True):
        if part.take != take:  # between two captures pedals are moved unheard
            last, take = {}, part.take
        if part.label is None or part.label.sweep is None:
            came = _from_pedals(reached(found.rest, pedals), together)
            taken = {place for one in came.values() for place in one.places}
            kept = tuple(one for at, one in enumerate(found.rest) if at not in taken)
            if kept or came:
                presses.append(Press(part, kept))
            recalls += [
                _Recall(
                    serial=part.serial,
                    line=part.line,
                    moved=moved,
                    value=track.points[-1].value,
                    last=last.get((part.line, moved)),
                    raw=tuple(found.rest[at] for at in sorted(track.places)),
                )
                for moved, track in came.items()
            ]
        for moved, points in found.tracks.items():
            if points:
                last[part.line, moved] = points[-1].value
    return presses, recalls


def _own(recalls: Iterable[_Recall], number_of: Mapping[int, int]) -> _Own:
    """Controls of pedals that a preset sets to one value, wherever the pedal stands."""
    found: dict[tuple[int, Moved], list[_Recall]] = {}
    for one in recalls:
        if one.serial in number_of:
            found.setdefault((number_of[one.serial], one.moved), []).append(one)
    own = set()
    for which, some in found.items():
        value, count = Counter(one.value for one in some).most_common(1)[0]
        if count > 1 and 2 * count > len(some):
            elsewhere = any(_stands_elsewhere(one) for one in some if one.value == value)
            unmoved = all(one.last is None for one in some)
            if elsewhere or (unmoved and value != _usual_elsewhere(found, which)):
                own.add(which)
    return frozenset(own)


def _from_pedals(
    came: Mapping[Moved, Track], together: Sequence[frozenset[Moved]]
) -> dict[Moved, Track]:
    """Of controls that pedals move, those that came with what moves together with them."""
    return {
        moved: track
        for moved, track in came.items()
        if any(moved in one and 2 * len(one & came.keys()) > len(one) for one in together)
    }


def _usual_elsewhere(
    found: Mapping[tuple[int, Moved], Sequence[_Recall]], which: tuple[int, Moved]
) -> int | None:
    """What a pedal's control mostly is at the recall of other presets; None without any."""
    number, moved = which
    values = Counter(
        recall.value
        for (other, same), some in found.items()
        if same == moved and other != number
        for recall in some
    )
    return values.most_common(1)[0][0] if values else None


def _stands_elsewhere(recall: _Recall) -> bool:
    """Whether the pedal was left clearly elsewhere than at the value that came."""
    if recall.last is None:
        return False
    halves = 7 if recall.moved.is_pair or recall.moved.code > SEVEN_BITS else 0
    return abs(recall.last - recall.value) > ELSEWHERE << halves


def _restored(press: Press, number: int, recalls: Iterable[_Recall], own: _Own) -> Press:
    """A press with what turned out to be the preset's own."""
    part = press.part
    back = [
        message
        for one in recalls
        if (number, one.moved) in own and (one.serial, one.line) == (part.serial, part.line)
        for message in one.raw
    ]
    return Press(part, tuple(sorted((*press.messages, *back)))) if back else press


def _recalled(
    recalls: Iterable[_Recall], number_of: Mapping[int, int], own: _Own
) -> dict[Moved, frozenset[int]]:
    """For each control of a pedal the presets at whose recall its place came, most of the times."""
    pressed = Counter(number_of.values())
    came: Counter[tuple[int, Moved]] = Counter()
    for one in recalls:
        number = number_of.get(one.serial)
        if number is not None and (number, one.moved) not in own:
            came[number, one.moved] += 1
    found: dict[Moved, set[int]] = {}
    for (number, moved), count in came.items():
        if 2 * count > pressed[number]:
            found.setdefault(moved, set()).add(number)
    return {moved: frozenset(numbers) for moved, numbers in found.items()}


def _is_one(group: Group, weigh: Weigh) -> bool:
    """Whether some presses are a preset, and not bytes from nowhere."""
    if group.number is not None:
        return True
    return any(weigh(one.data) > 0 for press in group.presses for one in press.messages)


def _preset(number: int, group: Group, weigh: Weigh) -> LearnedPreset:
    lines = sorted({press.part.line for press in group.presses})
    by_line = [
        agree([press.messages for press in group.presses if press.part.line == line], weigh)
        for line in lines
    ]
    return LearnedPreset(
        number=number,
        name=group.name,
        is_numbered=group.number is not None,
        agreed=_joined(by_line),
        presses=len(group.serials),
    )


def _joined(by_line: Sequence[tuple[Agreed, ...]]) -> tuple[Agreed, ...]:
    """What came on several lines as one list; what several carry alike is there once."""
    longest = max(by_line, key=len, default=())
    have = Counter(one.data for one in longest)
    more = []
    for agreed in by_line:
        if agreed is longest:
            continue
        extra = Counter(one.data for one in agreed) - have
        for one in agreed:
            if extra[one.data] > 0:
                extra[one.data] -= 1
                have[one.data] += 1
                more.append(one)
    return tuple(sorted((*longest, *more), key=_moment)) if more else longest


def _moment(agreed: Agreed) -> int:
    return agreed.at_us


def _seen(
    parts: Sequence[Part], splits: Sequence[Split], number_of: Mapping[int, int]
) -> list[Seen]:
    """What moved at each travel, the lines of one travel together."""
    found: dict[int, Seen] = {}
    preset = None
    for part, one in zip(parts, splits, strict=True):
        preset = number_of.get(part.serial, preset)
        if not one.tracks:
            continue
        before = found.get(part.serial)
        tracks = {**one.tracks, **(before.tracks if before else {})}
        name = part.label.sweep if part.label is not None else None
        found[part.serial] = Seen(serial=part.serial, name=name, preset=preset, tracks=tracks)
    return list(found.values())


def _tempo(whole: Cut) -> int | None:
    """The tempo of a clock that ran all the time, beats a minute; None without one."""
    if whole.clocks < CLOCKS_LEAST or not whole.clock_us:
        return None
    return round(whole.clocks / CLOCKS_LEAST * MINUTE_US / whole.clock_us)


def _account(
    parts: Sequence[Part],
    splits: Sequence[Split],
    groups: Sequence[tuple[int, Group]],
    presets: Sequence[LearnedPreset],
) -> Account:
    agreed = {one.number: Counter(each.data for each in one.agreed) for one in presets}
    to_presets = sum(
        (Counter(one.data for one in press.messages) & agreed[number]).total()
        for number, group in groups
        for press in group.presses
    )
    pressed = {
        (press.part.serial, press.part.line): len(press.messages)
        for _, group in groups
        for press in group.presses
    }
    to_sweeps = 0
    for part, one in zip(parts, splits, strict=True):
        moved = len(part.messages) - len(one.rest)
        recalled = len(one.rest) - pressed.get((part.serial, part.line), len(one.rest))
        to_sweeps += moved + recalled
    return Account(
        heard=sum(len(part.messages) for part in parts),
        to_presets=to_presets,
        to_sweeps=to_sweeps,
        malformed=sum(part.malformed for part in parts),
    )
