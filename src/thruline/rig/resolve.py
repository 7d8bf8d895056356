"""Document to rig: every name looked up, and what is not there noted instead of raised.

A rig with gaps can so still be looked at; the proof turns each gap into a finding.
"""

from collections import Counter
from collections.abc import Mapping
from types import MappingProxyType

from thruline.base.address import Address, at, nth
from thruline.document.rig_shape import RigShape, UnitShape
from thruline.rig.chart import Chart, Footprint
from thruline.rig.nearest import gap, key_gap
from thruline.rig.read_chart import read_odds
from thruline.rig.resolve_links import Gaps, read_audio, read_cables
from thruline.rig.resolve_presets import Resolved, read_presets, read_songs, read_sweeps
from thruline.rig.unit import Place, Unit
from thruline.rig.whole import Acceptance, Lack, Rig, Unresolved

RESERVED = frozenset({"number", "name", "about", "messages"})
"""Keys of a preset that are not units."""


def resolve(
    document: RigShape, charts: Mapping[str, Chart], *, before: Resolved | None = None
) -> Rig:
    """The rig that a document describes, with its charts by id.

    Presets are taken over from `before` where their part of the document is the same object.

    Every chart that a unit names must be there: raises KeyError otherwise (whoever loads the
    charts reports a missing one, with the file it was looked for in).
    """
    gaps: Gaps = []
    units = _units(document, charts, gaps)
    _note_twins(document, gaps)
    controller = units.get(document.rig.controller)
    if controller is None:
        gaps.append(_no_controller(document, units))
    presets = read_presets(document, units, controller, gaps=gaps, before=before)
    board = document.rig.board
    return Rig(
        name=document.rig.name,
        about=document.rig.about,
        controller=controller,
        units=units,
        cables=read_cables(document, units, gaps),
        audio=read_audio(document, units, gaps),
        presets=presets,
        sweeps=read_sweeps(document, units, presets, gaps=gaps),
        songs=read_songs(document, presets, gaps),
        acceptances=_acceptances(document),
        unresolved=tuple(gaps),
        slowest_change_us=document.rig.slowest_change_ms * 1000,
        board=Footprint(board.width, board.depth, board.height) if board else None,
    )


def _units(document: RigShape, charts: Mapping[str, Chart], gaps: Gaps) -> Mapping[str, Unit]:
    """The units by id; of several of one id the first, as an address without a number means it."""
    seen: Counter[str] = Counter()
    units: dict[str, Unit] = {}
    for place, one in enumerate(document.unit):
        seen[one.id] += 1
        address = at("unit", nth(one.id, seen[one.id]))
        settings = _settings(one, charts[one.chart], address, gaps)
        units.setdefault(one.id, _unit(one, charts[one.chart], place, settings))
    return MappingProxyType(units)


def _acceptances(document: RigShape) -> tuple[Acceptance, ...]:
    seen: Counter[str] = Counter()
    found = []
    for one in document.accept:
        seen[one.finding] += 1
        address = at("accept", nth(one.finding, seen[one.finding]))
        found.append(Acceptance(one.finding, one.reason, address))
    return tuple(found)


def _unit(one: UnitShape, chart: Chart, place: int, settings: dict[str, str]) -> Unit:
    """A unit with the factory's value for every setting that the document leaves open."""
    rule = chart.channel
    channel = one.channel if one.channel is not None else rule.factory if rule else None
    spot = one.place
    return Unit(
        id=one.id,
        chart=chart,
        name=one.name or chart.full_name,
        order=place,
        channel=channel,
        channel_written=one.channel is not None,
        sent_on=one.sent_on if one.sent_on is not None else channel,
        sent_over=one.sent_over,
        settings=MappingProxyType(settings),
        stated=frozenset(one.settings),
        place=Place(spot.x, spot.y, spot.turn) if spot else None,
        odds=MappingProxyType({**chart.odds, **read_odds(one.odds)}),
    )


def _settings(one: UnitShape, chart: Chart, unit: Address, gaps: Gaps) -> dict[str, str]:
    values = {setting.id: setting.factory for setting in chart.settings.values()}
    for key, value in one.settings.items():
        address = unit.child("settings").child(key)
        setting = chart.settings.get(key)
        if setting is None:
            says = f'{chart.full_name} has no setting "{key}"'
            beside = one.settings
            gaps.append(
                key_gap(Lack.SETTING, address, key, says=says, known=chart.settings, beside=beside)
            )
        elif value not in setting.values:
            choices = ", ".join(setting.values)
            says = f'"{value}" is not a choice of {chart.full_name} > {setting.name} ({choices})'
            known = setting.values
            gaps.append(
                gap(Lack.SETTING_VALUE, address, value, says=says, known=known, writes="{}")
            )
        else:
            values[key] = value
    return values


def _note_twins(document: RigShape, gaps: Gaps) -> None:
    """Two units of one id: the first hides the second. And ids that presets use for themselves."""
    for unit_id in RESERVED & {one.id for one in document.unit}:
        says = f'no unit can be called "{unit_id}": a preset uses that word for itself'
        gaps.append(
            Unresolved(lack=Lack.UNIT, address=at("unit", unit_id), found=unit_id, says=says)
        )
    for unit_id, count in Counter(one.id for one in document.unit).items():
        if count > 1:
            says = f'{count} units are called "{unit_id}"; each needs an id of its own'
            gaps.append(
                Unresolved(
                    lack=Lack.UNIT, address=at("unit", f"{unit_id}#2"), found=unit_id, says=says
                )
            )


def _no_controller(document: RigShape, units: Mapping[str, Unit]) -> Unresolved:
    found = document.rig.controller
    says = f'the controller "{found}" is not one of the units'
    where = at("rig").child("controller")
    return gap(Lack.UNIT, where, found, says=says, known=units, writes="{}")
