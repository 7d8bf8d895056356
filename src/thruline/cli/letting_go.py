"""Ports of a command, let go of when it ends, however it ends."""

from collections.abc import Sequence
from typing import TypeVar

import click

from thruline.bench.face import OutPort

Port = TypeVar("Port", bound=OutPort)


def until_the_end(ports: Sequence[Port]) -> Sequence[Port]:
    """The same ports, which are closed at the end of the command that is running.

    A port that is only forgotten may take with it what it was handed last.
    """
    for port in ports:
        click.get_current_context().call_on_close(port.close)
    return ports
