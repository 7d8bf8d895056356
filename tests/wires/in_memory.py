"""The command line over wires in memory, in a time that passes only where it is waited for."""

from tests.bench.clocks import StepClock
from thruline.outside.midi_wires import Wires


class Script(StepClock):
    """A clock that does things at their moments (us), in order, while somebody waits."""

    def __init__(self):
        super().__init__()
        self.deeds = []

    def at(self, moment_us, deed):
        """Do something once that moment has come."""
        self.deeds.append((moment_us, deed))
        self.deeds.sort(key=lambda pair: pair[0])

    def wait_until(self, moment_us):
        while self.deeds and self.deeds[0][0] <= moment_us:
            at_us, deed = self.deeds.pop(0)
            super().wait_until(at_us)
            deed()
        super().wait_until(moment_us)


def wired(monkeypatch, command, *names):
    """A clock and wires that a command finds in place of the computer's."""
    clock = Script()
    wires = Wires(*names, clock=clock)
    monkeypatch.setattr("thruline.wiring.system_ports", lambda _: wires)
    monkeypatch.setattr(f"thruline.cli.commands.{command}.wall_clock", lambda: clock)
    return clock, wires
