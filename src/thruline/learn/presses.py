"""Which presses are of one preset, where a person said so and where nobody did."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from thruline.audit.travels import CONTROL_STATUS
from thruline.learn.agree import Weigh, differing
from thruline.learn.parts import Message, Part

ALIKE = 0.6
"""Presses that share less than this of their messages are of different presets."""
SUPPORTED = 3
"""As many presses with the like of a message are as good as any more."""
RARE = -1.5
"""What a message is worth of which nothing else was heard; less than nothing."""
LIKELY = 1.0
"""Odds above which a message is taken for a damaged one."""
TRUST = 2.0
"""What is added where no byte of the whole capture was damaged."""


@dataclass(frozen=True, slots=True)
class Press:
    """One press on one line, without what pedals sent."""

    part: Part
    messages: tuple[Message, ...]


@dataclass(slots=True)
class Group:
    """Presses of one preset; `number` is None where nobody said which it is."""

    number: int | None
    name: str = ""
    presses: list[Press] = field(default_factory=list)

    @property
    def serials(self) -> set[int]:
        """Which presses these are, lines aside."""
        return {one.part.serial for one in self.presses}


def weigher(presses: Iterable[Press], knows: Callable[[bytes], bool | None]) -> Weigh:
    """How plausible a message is: by how often its like came elsewhere, and by the charts.

    `knows` says whether the chart of its unit knows such a message; None without a chart. Of a
    preset that was pressed once nothing else tells what it sends, so what is new there counts,
    unless it stands where a damaged byte would have put it (see `_replaces`).
    """
    presses = list(presses)
    like, same = dict[tuple[int, int], set[int]](), dict[bytes, set[int]]()
    once = _pressed_once(presses)
    count = len({press.part.serial for press in presses})
    malformed = 0
    for press in presses:
        malformed += press.part.malformed
        for one in press.messages:
            like.setdefault(likeness(one.data), set()).add(press.part.serial)
            same.setdefault(one.data, set()).add(press.part.serial)
    trust = 0.0 if malformed else TRUST

    def weigh(data: bytes) -> float:
        others = max(0, len(like.get(likeness(data), ())) - 1)
        twins = max(0, len(same.get(data, ())) - 1)
        known = knows(data)
        by_chart = 0.0 if known is None else 2.0 if known else -2.5
        came = like.get(likeness(data), set())
        if came and came <= once:
            damaged = others == 0 and _replaces(data, min(came), like, count) > LIKELY
        else:
            damaged = others > 0 or any(len(like.get(one, ())) > 1 for one in _near(data))
        lone = RARE if damaged else 0.5
        return min(SUPPORTED, others) + 0.5 * min(SUPPORTED, twins) + by_chart + lone + trust

    return weigh


def _pressed_once(presses: Sequence[Press]) -> set[int]:
    """Presses of presets that a person named, each the only one of its preset."""
    named: dict[int, set[int]] = {}
    for press in presses:
        label = press.part.label
        if label is not None and label.preset is not None:
            named.setdefault(label.preset, set()).add(press.part.serial)
    return {min(serials) for serials in named.values() if len(serials) == 1}


def _replaces(
    data: bytes, serial: int, like: Mapping[tuple[int, int], set[int]], count: int
) -> float:
    """The odds that a message stands at a press for a usual one that is not there.

    Of each kind that one turned bit makes of it: how often it comes with presses, to how seldom it
    does not. Where that kind is there as well, nothing was turned.
    """
    odds = 0.0
    for kind in _near(data):
        came = like.get(kind, set())
        if len(came) > 1 and serial not in came:
            odds += len(came) / (count - len(came))
    return odds


def likeness(data: bytes) -> tuple[int, int]:
    """What messages of one kind share: the status, and of a control change the number."""
    return data[0], data[1] if data[0] & 0xF0 == CONTROL_STATUS else -1


def _near(data: bytes) -> Iterator[tuple[int, int]]:
    """The kinds of message that one turned bit makes of this one, or this one of them."""
    status, number = likeness(data)
    for bit in range(7):
        if len(data) > 1:
            yield likeness(bytes((status ^ 1 << bit, *data[1:])))
        if number >= 0:
            yield status, number ^ 1 << bit


def grouped(presses: Sequence[Press]) -> list[Group]:
    """Presses put together: by what a person said, the rest by what they hold."""
    said: dict[int, Group] = {}
    unsaid = []
    for press in presses:
        label = press.part.label
        if label is not None and label.preset is not None:
            group = said.setdefault(label.preset, Group(label.preset))
            group.name = group.name or label.name
            group.presses.append(press)
        else:
            unsaid.append(press)
    return [*said.values(), *_by_content(unsaid, list(said.values()))]


def _by_content(presses: Sequence[Press], known: Sequence[Group]) -> list[Group]:
    """Groups of presses that nobody named; what is like a known one goes there."""
    often = Counter(one.data for press in presses for one in press.messages)
    damaged = {press.part.serial for press in presses if press.part.malformed}
    found: list[Group] = []
    for serial in sorted({one.part.serial for one in presses}):
        mine = [one for one in presses if one.part.serial == serial]
        same = (
            group
            for group in (*known, *found)
            if any(_is_same(one, other, often, damaged) for one in mine for other in group.presses)
        )
        group = next(same, None)
        if group is None:
            group = Group(None)
            found.append(group)
        group.presses += mine
    return found


def _is_same(one: Press, other: Press, often: Mapping[bytes, int], damaged: set[int]) -> bool:
    """Whether two presses on one line differ only by what damage explains."""
    if one.part.line != other.part.line:
        return False
    mine, theirs = (Counter(each.data for each in press.messages) for press in (one, other))
    most = max(mine.total(), theirs.total())
    if not most or (mine & theirs).total() < ALIKE * most:
        return False
    gone, new = list((mine - theirs).elements()), list((theirs - mine).elements())
    if not gone and not new:
        return True
    if not damaged:
        return False
    broken = one.part.malformed + other.part.malformed
    garbled = sum(
        1
        for some, others in ((gone, new), (new, gone))
        for data in some
        if often[data] == 1 and any(often[each] > 1 and _alike(data, each) for each in others)
    )
    return len(gone) + len(new) - 2 * garbled <= 2 * broken


def _alike(one: bytes, other: bytes) -> bool:
    """Whether one damaged byte makes one of the other."""
    return one != other and differing(one, other) == 1


def numbered(groups: Sequence[Group], *, first: int = 1) -> list[tuple[int, Group]]:
    """Every group with a number: the one that was said, else the next free one."""
    taken = {one.number for one in groups if one.number is not None}
    free = (number for number in range(first, first + 2 * len(groups) + len(taken) + 1))
    rest = (number for number in free if number not in taken)
    return [(next(rest) if one.number is None else one.number, one) for one in groups]
