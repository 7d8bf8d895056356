"""A unit's memory: received, kept with its hash and date, and sent back when asked twice."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Protocol

from thruline.audit.capture import Caught
from thruline.base.errors import CannotUse, WorldFailed
from thruline.base.measures import BYTE_US
from thruline.bench.dump import Checksum, Guarding, guarding_of, holds_memory, troubles
from thruline.bench.face import OutPort, WallClock
from thruline.bench.send import Planned
from thruline.bench.several import Way, play_parted
from thruline.midi.message import SystemExclusive
from thruline.midi.specs import END_OF_EXCLUSIVE as END
from thruline.midi.specs import EXCLUSIVE
from thruline.midi.words import counted, messages_says

GAP_US = 100_000
"""Between two messages that are sent back: units write each to a slow memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Backup:
    """What was kept of one unit: its exclusives, and what was noted beside them."""

    unit: str
    name: str
    chart: str
    date: str
    rig: str = ""
    """What its rig calls itself; empty where that was not noted."""
    guarding: Guarding
    messages: tuple[bytes, ...]

    @property
    def raw(self) -> bytes:
        """All bytes in a row."""
        return b"".join(self.messages)

    @property
    def size_says(self) -> str:
        """How much it is, in words."""
        return f"{messages_says(len(self.messages))}, {counted(len(self.raw))}"

    @property
    def facts(self) -> Mapping[str, str]:
        """What is noted beside the bytes."""
        rig = {"rig": self.rig} if self.rig else {}
        return {
            **rig,
            "unit": self.unit,
            "name": self.name,
            "chart": self.chart,
            "date": self.date,
            "checksum": self.guarding.kind.value,
            "covered-from": str(self.guarding.first),
            "bytes": str(len(self.raw)),
            "sha256": sha256(self.raw).hexdigest(),
        }

    def look_at_rig(self, rig: str) -> None:
        """Raise CannotUse when it was kept of another rig than the one that calls itself so."""
        if self.rig and self.rig != one_row(rig):
            raise CannotUse(
                f'"{self.name}" was kept of the rig "{self.rig}", and this is "{one_row(rig)}"; '
                "not sent. If it is the same board renamed, give it the old name meanwhile"
            )

    @property
    def rig_says(self) -> str:
        """Of which rig it was kept, in words."""
        return f'kept of the rig "{self.rig}"' if self.rig else "it does not tell of which rig"


class Store(Protocol):
    """Where backups are kept."""

    def keep(self, unit: str, name: str, *, raw: bytes, facts: Mapping[str, str]) -> str:
        """Keep one; where. Raises CannotUse when there is one of that name already."""
        ...

    def look_at_name(self, unit: str, name: str) -> None:
        """Raise CannotUse when nothing more can be kept of a unit under this name."""
        ...

    def fetch(self, unit: str, name: str) -> tuple[bytes, Mapping[str, str]]:
        """One that was kept. Raises CannotUse, naming what there is, when there is none."""
        ...

    def names(self, unit: str) -> tuple[str, ...]:
        """What was kept of a unit, by name."""
        ...

    def untold(self, unit: str) -> tuple[str, ...]:
        """Of those names the ones that do not tell of which rig they were kept."""
        ...


def one_row(name: str) -> str:
    """A name as it stands in a row of notes."""
    return " ".join(name.split())


def backup_from(
    events: Iterable[Caught], *, unit: str, name: str, chart: str, date: str, rig: str
) -> Backup:
    """A backup of the exclusives among what came; `rig` is what the rig calls itself.

    Universal ones that hold no memory are left out. Raises CannotUse when there are none, or one
    came broken: half a memory is worse than none.
    """
    messages: list[bytes] = []
    others = 0
    for one in events:
        if isinstance(one.message, SystemExclusive):
            if holds_memory(one.raw):
                messages.append(one.raw)
            else:
                others += 1
        elif one.message is None and EXCLUSIVE.status in one.raw[:1]:
            raise CannotUse(
                f"exclusive {len(messages) + 1} came broken ({counted(len(one.raw))} of it); "
                "nothing is kept. Stop clock and pedals on that line, and dump again"
            )
    if not messages and others:
        raise CannotUse(
            f"no memory came, only {messages_says(others)} of other kinds (who a unit is, for "
            "example); start the dump in the unit's own menu while this waits"
        )
    if not messages:
        raise CannotUse(
            "no system exclusive came; start the dump in the unit's own menu while this waits, "
            "and see that its MIDI OUT comes back to the port that is listened to"
        )
    return Backup(
        unit=unit,
        name=name,
        chart=chart,
        date=date,
        rig=one_row(rig),
        guarding=guarding_of(messages),
        messages=tuple(messages),
    )


def read_backup(raw: bytes, facts: Mapping[str, str]) -> Backup:
    """A backup as it was kept. Raises CannotUse when it is not what was kept."""
    if sha256(raw).hexdigest() != facts.get("sha256"):
        raise CannotUse("this backup is damaged: its bytes are not those that were kept; not sent")
    try:
        guarding = Guarding(Checksum(facts["checksum"]), int(facts["covered-from"]))
        names = {key: facts[key] for key in ("unit", "name", "chart", "date")}
    except (KeyError, ValueError):
        raise CannotUse("this backup is damaged: what was noted beside it cannot be read") from None
    found = Backup(**names, rig=facts.get("rig", ""), guarding=guarding, messages=split(raw))
    wrong = troubles(found.messages, guarding)
    if wrong:
        raise CannotUse(f"this backup does not verify, and is not sent: {'; '.join(wrong)}")
    return found


def split(raw: bytes) -> tuple[bytes, ...]:
    """Bytes as messages; whatever is left after the last end is the last."""
    end = bytes((END.status,))
    parts = raw.split(end)
    return (*(part + end for part in parts[:-1]), *(part for part in parts[-1:] if part))


def restore(
    backup: Backup,
    port: OutPort,
    clock: WallClock,
    *,
    confirmed: Callable[[], str],
    goes_on: Callable[[], bool] = lambda: True,
) -> int:
    """Send a backup back into its unit, slowly, once the person has named the unit.

    Gives how many messages were sent: less than all when it was stopped. Raises CannotUse when the
    person names another or the port does not carry all of it; WorldFailed when the port goes or
    does not take a message: then it says how much the unit has.
    """
    look_at_port(backup, port)
    if confirmed().strip() != backup.unit:
        raise CannotUse(f'not sent: "{backup.unit}" was not confirmed by its name')
    (took,) = play_parted(paced(backup.messages), [Way(port)], clock, goes_on=goes_on)
    if took.trouble:
        raise WorldFailed(f"{took.trouble}. {_left(backup, took.count)}")
    return took.count


def _left(backup: Backup, count: int) -> str:
    """What a unit has in its memory when the port went after so many messages."""
    whole, again = len(backup.messages), "half old and half new; send the backup again"
    if count == 0:
        return f"0 of {whole} messages were sent; the memory of {backup.unit} is as it was"
    if count == whole:
        return (
            f"All messages were handed over, but the last of them may not have arrived, so the "
            f"memory of {backup.unit} may be {again}"
        )
    return f"{count} of {whole} messages were sent, so the memory of {backup.unit} is {again}"


def lasts_us(plan: Sequence[Planned]) -> int:
    """How long the line carries some messages, from the first byte to the last; us."""
    return plan[-1].at_us + BYTE_US * len(plan[-1].data) if plan else 0


def look_at_port(backup: Backup, port: OutPort) -> None:
    """Raise CannotUse where a port does not carry every message of a backup, before any is sent.

    A message cannot be cut: a port hands on whole messages, and a unit would write half of one.
    """
    longest = port.longest
    for number, message in enumerate(backup.messages, 1):
        if longest is not None and len(message) > longest:
            raise CannotUse(
                f'"{backup.name}" cannot go through {port.name}: message {number} of '
                f"{len(backup.messages)} has {len(message):,} bytes, and the MIDI system of this "
                f"port loses what is longer than {longest:,}. Nothing was sent, and the memory of "
                f"{backup.unit} is as it was. A serial line (serial:NAME) carries it, and so does "
                "this interface on a computer whose MIDI runs without JACK"
            )


def paced(messages: Sequence[bytes]) -> tuple[Planned, ...]:
    """Messages with the pauses that slow memories need."""
    found, at_us = list[Planned](), 0
    for message in messages:
        found.append(Planned(at_us, message))
        at_us += BYTE_US * len(message) + GAP_US
    return tuple(found)
