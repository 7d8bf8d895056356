"""`ports`: list the MIDI ports of this computer."""

import click

from thruline.app.frame import answer
from thruline.base.errors import EXIT_CLEAN, WorldFailed
from thruline.bench.face import Ports
from thruline.cli.show import give_json, say
from thruline.wiring import serial_ports, system_ports, wall_clock


@click.command("ports", epilog="Exit code 0 when a MIDI system answers, 3 when there is none.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(*, as_json: bool) -> int:
    """List the MIDI ports of this computer.

    `listen`, `send` and `audit` take a part of a name. A MIDI line at a serial port is written
    serial: and the name of that port.
    """
    clock = wall_clock()
    system = system_ports(clock)
    serial = _serial(serial_ports(clock))
    if as_json:
        found = {"inputs": list(system.inputs()), "outputs": list(system.outputs())}
        give_json(answer("ports", system=system.says, **found, serial=serial))
        return EXIT_CLEAN
    for what, names in (
        ("to listen to", system.inputs()),
        ("to send to", system.outputs()),
        ("serial lines", serial),
    ):
        say(f"{what} ({system.says}):" if what != "serial lines" else f"{what}:")
        for name in names or ["none"]:
            say(f"  {name}")
    return EXIT_CLEAN


def _serial(lines: Ports) -> list[str]:
    try:
        return [f"serial:{name}" for name in lines.inputs()]
    except WorldFailed:
        return []
