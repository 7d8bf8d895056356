"""Where the bench of the workbench is joined to the world. Importing it does nothing."""

from dataclasses import dataclass

from thruline.bench.backup import Store
from thruline.bench.face import Log, WallClock
from thruline.bench.systems import Systems
from thruline.outside.captures import CaptureFolder, captures_of
from thruline.outside.midi_wires import Wires
from thruline.wiring import SERIAL, backup_store, serial_ports, system_ports, workshop_folder

IN_MEMORY = "in memory: "
"""What the name of a wire in memory begins with."""


def bench_systems(clock: WallClock) -> Systems:
    """All ports of this computer, and one wire in memory to try things on."""
    return Systems(
        {
            "": lambda: system_ports(clock),
            SERIAL: lambda: serial_ports(clock),
            IN_MEMORY: lambda: Wires("loop", clock=clock),
        },
        clock,
    )


@dataclass(frozen=True, slots=True)
class BenchKeeping:
    """What the bench of a rig leaves in the workshop: captures, and backups of units."""

    captures: CaptureFolder
    backups: Store

    def begin(self, name: str) -> tuple[str, Log]:
        """A new log, and what it is called. Raises CannotUse or WorldFailed when it cannot be."""
        return self.captures.begin(name)


def bench_keeping(rig: str) -> BenchKeeping:
    """Where the bench of a rig keeps what it hears."""
    return BenchKeeping(captures_of(workshop_folder(), rig), backup_store(rig))
