"""What a page can do at the bench: each deed reads what was asked, and says who may do it.

A device that was let in may look, tick off, and stop everything. What makes sound it may only do
when somebody at the workbench's own machine has allowed it, for the one who holds a telephone need
not be the one who stands beside the loudspeaker. What opens ports or writes memories it may not.
"""

from collections.abc import Callable, Mapping
from enum import Enum
from types import MappingProxyType
from typing import NamedTuple

from thruline.app.send import preset_step, unit_steps
from thruline.app.sweeping import Sweeping
from thruline.base.errors import CannotUse
from thruline.bench.plugged import refuse_twice
from thruline.proof.case import Case
from thruline.workbench.asked import Asked, wanted
from thruline.workbench.bench import Bench


class Who(Enum):
    """Who may do something."""

    ANYBODY = "anybody"
    WHO_MAY_SEND = "this machine, and devices once it was allowed"
    THIS_MACHINE = "this machine"


class Deed(NamedTuple):
    """Who may do it, and what it does; what it gives is said to the person."""

    who: Who
    do: Callable[[Bench, Case, Asked], str | None]


def _open(bench: Bench, case: Case, asked: Asked) -> None:
    inputs = [
        (wanted(one, "port", str), wanted(one, "line", str) or wanted(one, "port", str))
        for one in wanted(asked, "inputs", list)
        if isinstance(one, dict)
    ]
    outputs = [
        (wanted(one, "port", str), wanted(one, "over", str))
        for one in wanted(asked, "outputs", list)
        if isinstance(one, dict)
    ]
    lines = [line for _, line in inputs]
    twice = next((line for line in lines if lines.count(line) > 1), None)
    if twice is not None:
        raise CannotUse(f'two ports cannot both be at "{twice}"; choose another socket for one')
    refuse_twice([port for port, _ in inputs])
    refuse_twice([port for port, _ in outputs])
    bench.open(case, inputs, outputs)


def _close(bench: Bench, _case: Case, _asked: Asked) -> None:
    bench.close()


def _sound(bench: Bench, _case: Case, asked: Asked) -> None:
    bench.sound_is_down(is_it=wanted(asked, "down", bool))


def _telephones(bench: Bench, _case: Case, asked: Asked) -> None:
    bench.may_telephones_send = wanted(asked, "may", bool)
    bench.turn += 1


def _send(bench: Bench, case: Case, asked: Asked) -> None:
    number = wanted(asked, "preset", int)
    step = preset_step(case, number, overs=bench.overs(case))
    bench.send(step.title, [step])


def _step(bench: Bench, case: Case, asked: Asked) -> None:
    number = wanted(asked, "preset", int)
    steps = list(unit_steps(case, number, overs=bench.overs(case)))
    if not steps:
        raise CannotUse("this preset sends nothing over MIDI")
    bench.send(f"preset {number}, unit by unit", steps)


def _answer(bench: Bench, _case: Case, asked: Asked) -> None:
    bench.answer(is_so=wanted(asked, "so", bool))


def _again(bench: Bench, _case: Case, _asked: Asked) -> None:
    bench.again()


def _panic(bench: Bench, case: Case, _asked: Asked) -> str:
    return bench.panic(case)


def _sweep(bench: Bench, case: Case, asked: Asked) -> None:
    name, place = wanted(asked, "sweep", str), wanted(asked, "place", int)
    bench.sweep(lambda one: one.move(case, name, place=place))


def _pedal(bench: Bench, case: Case, asked: Asked) -> None:
    name = asked.get("sweep")
    deeds: Mapping[str, Callable[[Sweeping], None]] = {
        "learn": lambda one: one.learn(),
        "at-toe": lambda one: one.at_toe(),
        "at-heel": lambda one: one.at_heel(),
        "follow": lambda one: one.follow(case, str(name)),
        "let-go": lambda one: one.let_go(),
    }
    deed = wanted(asked, "do", str)
    if deed not in deeds:
        raise CannotUse(f'"{deed}" is nothing that is done with a pedal')
    bench.sweep(deeds[deed])


def _audit(bench: Bench, case: Case, _asked: Asked) -> None:
    bench.audit(case)


def _skip(bench: Bench, _case: Case, _asked: Asked) -> None:
    bench.skip()


def _end_audit(bench: Bench, _case: Case, _asked: Asked) -> None:
    bench.end_audit()


def _identify(bench: Bench, case: Case, _asked: Asked) -> None:
    bench.identify(case)


def _save(bench: Bench, case: Case, asked: Asked) -> None:
    bench.save(case, wanted(asked, "unit", str), wanted(asked, "name", str))


def _stop_saving(bench: Bench, _case: Case, _asked: Asked) -> None:
    bench.stop_saving()


def _restore(bench: Bench, case: Case, asked: Asked) -> None:
    bench.restore(
        case,
        wanted(asked, "unit", str),
        name=wanted(asked, "name", str),
        port=wanted(asked, "port", str),
        confirmed=wanted(asked, "confirmed", str),
    )


DEEDS: Mapping[str, Deed] = MappingProxyType(
    {
        "open": Deed(Who.THIS_MACHINE, _open),
        "close": Deed(Who.THIS_MACHINE, _close),
        "sound": Deed(Who.THIS_MACHINE, _sound),
        "telephones": Deed(Who.THIS_MACHINE, _telephones),
        "send": Deed(Who.WHO_MAY_SEND, _send),
        "step": Deed(Who.WHO_MAY_SEND, _step),
        "again": Deed(Who.WHO_MAY_SEND, _again),
        "answer": Deed(Who.WHO_MAY_SEND, _answer),
        "sweep": Deed(Who.WHO_MAY_SEND, _sweep),
        "pedal": Deed(Who.WHO_MAY_SEND, _pedal),
        "panic": Deed(Who.ANYBODY, _panic),
        "audit": Deed(Who.ANYBODY, _audit),
        "skip": Deed(Who.ANYBODY, _skip),
        "end-audit": Deed(Who.ANYBODY, _end_audit),
        "identify": Deed(Who.WHO_MAY_SEND, _identify),
        "save": Deed(Who.THIS_MACHINE, _save),
        "stop-saving": Deed(Who.THIS_MACHINE, _stop_saving),
        "restore": Deed(Who.THIS_MACHINE, _restore),
    }
)
"""Every deed by the word that a page sends."""


def do(bench: Bench, case: Case, *, deed: str, asked: Asked, is_here: bool) -> str:
    """Do it; what is to be said. Raises CannotUse when there is no such deed, or not from there."""
    if deed not in DEEDS:
        raise CannotUse(f'there is no "{deed}" at the bench; there are {", ".join(DEEDS)}')
    who, does = DEEDS[deed]
    if not is_here and who is Who.THIS_MACHINE:
        raise CannotUse("that is done at the workbench's own machine only, beside the board")
    if not is_here and who is Who.WHO_MAY_SEND and not bench.may_telephones_send:
        raise CannotUse(
            "this device may not send: somebody at the workbench's own machine allows it there, "
            "on the Bench page, once the sound is turned down"
        )
    return does(bench, case, asked) or ""
