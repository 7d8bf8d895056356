"""The inner consistency of one chart: whether its parts fit each other and the standard.

A chart without problems can be read and used by every later stage without any of them failing.
What a chart leaves out is no problem; `missing_facts` tells what cannot be told for want of it.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from thruline.base.address import at
from thruline.document.chart_shape import ChartShape
from thruline.rig.chart_problem import ChartProblem
from thruline.rig.check_controls import look_at_controls
from thruline.rig.check_links import look_at_links
from thruline.rig.check_programs import look_at_programs
from thruline.rig.check_settings import look_at_settings
from thruline.rig.check_sockets import look_at_sockets


def check_chart(document: ChartShape) -> tuple[ChartProblem, ...]:
    """Everything that does not fit together in a chart; empty when it can be used."""
    return (
        *_twins(document),
        *look_at_sockets(document),
        *look_at_links(document),
        *look_at_settings(document),
        *look_at_programs(document),
        *look_at_controls(document),
        *_look_at_identity(document),
        *_look_at_controller(document),
    )


def _twins(document: ChartShape) -> Iterator[ChartProblem]:
    """Two entries of one name, of which the second would hide the first."""
    named: Sequence[tuple[str, Iterable[str]]] = (
        ("socket", (one.id for one in document.socket)),
        ("bond", (f"{one.from_}>{one.to}" for one in document.bond)),
        ("output", (one.socket for one in document.output)),
        ("setting", (one.id for one in document.setting)),
        ("control", (one.id for one in document.control)),
        ("send", (one.what for one in document.send)),
        ("outlet", (one.socket for one in document.outlet)),
        ("loop", (one.id for one in document.loop)),
        ("pedal", (one.socket for one in document.pedal)),
    )
    for key, names in named:
        for name, count in Counter(names).items():
            if count > 1:
                yield ChartProblem(
                    at(key, f"{name}#2"),
                    f'there are {count} [[{key}]] entries for "{name}"',
                    "keep one, or give the others names of their own",
                )


def _look_at_identity(document: ChartShape) -> Iterator[ChartProblem]:
    """A manufacturer is one byte, or a nought and two more (MIDI 1.0 Detailed Specification)."""
    if document.identity is None:
        return
    maker = document.identity.manufacturer
    if len(maker) == 2 or (len(maker) == 3) != (maker[0] == 0):
        yield ChartProblem(
            at("identity").child("manufacturer"),
            f"{maker} is no manufacturer number",
            "write one number from 1 to 125, or three of which the first is 0",
        )


def _look_at_controller(document: ChartShape) -> Iterator[ChartProblem]:
    """What a controller can do; only a controller has expression inputs with moves."""
    one = document.controller
    if one is None:
        for pedal in document.pedal:
            yield ChartProblem(
                at("pedal", pedal.socket),
                "there is a [[pedal]], but no [controller] that could send what it moves",
                "add [controller], or take the [[pedal]] away",
            )
        return
    if one.pauses is not None and one.pauses.longest_ms < one.pauses.step_ms:
        yield ChartProblem(
            at("controller").child("pauses"),
            f"the longest pause ({one.pauses.longest_ms} ms) is shorter than one step "
            f"({one.pauses.step_ms} ms)",
            "exchange them, or leave out `pauses` if there are none",
        )
