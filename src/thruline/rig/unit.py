"""One box on the board, with its chart, its channel and its settings."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from thruline.base.address import Address, at
from thruline.rig.chart import NO_ODDS, Chart, Governs, Setting, Way
from thruline.rig.power import Outlet


@dataclass(frozen=True, slots=True)
class Place:
    """Where a unit stands: left back corner in mm, turn in degrees."""

    x: int
    y: int
    turn: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit with its settings.

    `settings` holds every setting of the chart, the factory's value where the document says
    nothing; `stated` names those that the document does state.
    `channel` is what the unit is set to, None when it is neither stated nor given by its chart.
    `channel_written` tells that the document gives it, and not the chart's factory value.
    `sent_on` is the channel on which the controller addresses it, `sent_over` the socket of the
    controller that the document gives for it, if it gives one. `odds` are those of its chart, with
    what the document says of this very unit in their place.
    """

    id: str
    chart: Chart
    name: str
    order: int
    channel: int | None
    sent_on: int | None
    settings: Mapping[str, str]
    stated: frozenset[str]
    place: Place | None = None
    channel_written: bool = True
    sent_over: str | None = None
    odds: Mapping[str, float] = field(default_factory=lambda: NO_ODDS)

    @property
    def address(self) -> Address:
        """Where the unit stands in the document."""
        return at("unit", self.id)

    @property
    def channels(self) -> tuple[int, ...]:
        """The channels it takes, in a row from its own; empty when it has none."""
        if self.channel is None or self.chart.channel is None:
            return ()
        return tuple(range(self.channel, self.channel + self.chart.channel.occupies))


def called(units: Mapping[str, Unit], unit: str) -> str:
    """The name of a unit; with its id, where another one is called the same."""
    known = units.get(unit)
    if known is None:
        return unit
    alike = sum(other.name == known.name for other in units.values())
    return known.name if alike == 1 else f"{known.name} ({unit})"


def marked(unit: Unit, socket: str) -> str:
    """A socket by what is printed beside it, if its chart says."""
    known = unit.chart.sockets.get(socket)
    return known.marked if known and known.marked else socket


def setting_for(unit: Unit, governs: Governs, socket: str | None = None) -> Setting | None:
    """The setting of the unit that decides this, if it has one."""
    for setting in unit.chart.settings.values():
        if setting.governs is governs and setting.socket in (None, socket):
            return setting
    return None


def meaning(unit: Unit, setting: Setting) -> str | None:
    """What the value that a setting has stands for; None when the chart does not say."""
    value = unit.settings[setting.id]
    return setting.means.get(value, value if not setting.means else None)


def allows(unit: Unit, governs: Governs) -> bool | None:
    """Whether a setting lets something happen; None when there is no such setting or no meaning."""
    setting = setting_for(unit, governs)
    if setting is None:
        return None
    means = meaning(unit, setting)
    return None if means is None else means == "on"


def outlet_of(unit: Unit, socket: str) -> Outlet | None:
    """What an outlet gives as its switch, if it has one, is set; None when the chart has none."""
    outlet = unit.chart.outlets.get(socket)
    setting = setting_for(unit, Governs.OUTLET_VOLTAGE, socket)
    if outlet is None or setting is None:
        return outlet
    return outlet.at(unit.settings[setting.id])


def outlet_positions(unit: Unit, socket: str) -> tuple[tuple[Setting, str, Outlet], ...]:
    """Every position of the switch of an outlet, with what it then gives; none without a switch."""
    outlet = unit.chart.outlets.get(socket)
    setting = setting_for(unit, Governs.OUTLET_VOLTAGE, socket)
    if outlet is None or setting is None:
        return ()
    return tuple((setting, value, outlet.at(value)) for value in setting.values)


def way_of(unit: Unit, socket: str) -> Way | None:
    """What an output is set to do with what comes in; None when that cannot be told."""
    output = unit.chart.outputs.get(socket)
    if output is None:
        return None
    setting = setting_for(unit, Governs.OUTPUT, socket)
    if setting is None:
        return output.ways[0] if len(output.ways) == 1 else None
    means = meaning(unit, setting)
    return Way(means) if means in {way.value for way in output.ways} else None


def is_omni(unit: Unit) -> bool | None:
    """Whether the unit hears every channel."""
    rule = unit.chart.channel
    if rule is None or rule.omni == "never":
        return False
    return True if rule.omni == "always" else allows(unit, Governs.OMNI)


def takes_program(unit: Unit) -> bool | None:
    """Whether program changes are taken, by chart and setting; None when it cannot be told."""
    return _both(unit.chart.receives.program, allows(unit, Governs.PROGRAM_RECEIVE))


def takes_control(unit: Unit) -> bool | None:
    """Whether control changes are taken."""
    return _both(unit.chart.receives.control, allows(unit, Governs.CONTROL_RECEIVE))


def takes_clock(unit: Unit) -> bool | None:
    """Whether the unit follows timing clock."""
    return _both(unit.chart.receives.clock, allows(unit, Governs.CLOCK_RECEIVE))


def sends(unit: Unit, what: str) -> bool:
    """Whether the unit transmits this of its own accord, as it is set."""
    for send in unit.chart.sends:
        if send.what == what:
            if send.setting is None:
                return send.factory
            return meaning(unit, unit.chart.settings[send.setting]) == "on"
    return False


def _both(able: bool | None, allowed: bool | None) -> bool | None:
    """A fact of the chart narrowed by a setting, where there is one."""
    if able is False or allowed is False:
        return False
    return able if allowed is None else allowed
