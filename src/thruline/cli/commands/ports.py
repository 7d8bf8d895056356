"""`ports`: list the MIDI ports of this computer."""

from collections.abc import Sequence

import click

from thruline.app.frame import answer
from thruline.base.errors import EXIT_CLEAN, EXIT_WORLD_FAILED, WorldFailed
from thruline.bench.face import Ports, WallClock
from thruline.cli.show import complain, give_json, say_all
from thruline.wiring import serial_ports, system_ports, wall_clock


@click.command("ports", epilog="Exit code 0 when a MIDI system answers, 3 when there is none.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(*, as_json: bool) -> int:
    """List the MIDI ports of this computer.

    `listen`, `send` and `audit` take a part of a name. A MIDI line at a serial port is written
    serial: and the name of that port.
    """
    clock = wall_clock()
    serial, trouble = _serial(clock), ""
    try:
        system: Ports | None = system_ports(clock)
    except WorldFailed as failed:
        system, trouble = None, failed.says
    inputs = list(system.inputs()) if system else []
    outputs = list(system.outputs()) if system else []
    says = system.says if system else ""
    if as_json:
        found = {"inputs": inputs, "outputs": outputs, "serial": serial}
        give_json(answer("ports", system=says, **found, trouble=trouble))
    else:
        if system:
            say_all(_rows(f"to listen to ({says})", inputs))
            say_all(_rows(f"to send to ({says})", outputs))
        say_all(_rows("serial lines", serial))
        if trouble:
            complain(trouble)
    return EXIT_WORLD_FAILED if trouble else EXIT_CLEAN


def _rows(head: str, names: Sequence[str]) -> list[str]:
    return [f"{head}:", *(f"  {name}" for name in names or ["none"])]


def _serial(clock: WallClock) -> list[str]:
    try:
        return [f"serial:{name}" for name in serial_ports(clock).inputs()]
    except WorldFailed:
        return []
