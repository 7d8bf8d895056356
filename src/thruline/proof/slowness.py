"""Which units a change of preset waits for."""

from collections.abc import Iterator

from thruline.base.measures import shown_ms
from thruline.proof.case import Case
from thruline.rig.preset import Preset

MOST_SHOWN = 4


def slowest_units(case: Case, preset: Preset) -> Iterator[tuple[str, str]]:
    """The units that are right last, and when, the last one first."""
    receptions = case.run(preset).receptions
    times = [(one.right_us, unit) for unit, one in receptions.items() if one.right_us is not None]
    for right, unit in sorted(times, reverse=True)[:MOST_SHOWN]:
        yield case.rig.units[unit].name, f"right at {shown_ms(right)}"
