"""A rig to start from: the first board with a name, and with the controller that one has."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from thruline.app.frame import Json, answer
from thruline.app.load import Opened, open_chart, open_rig
from thruline.base.address import Address, at
from thruline.base.edit import Edit, Plain, remove, set_to
from thruline.base.errors import CannotUse
from thruline.document.change import apply
from thruline.document.problems import BadDocument
from thruline.proof.engine import Proof
from thruline.proof.finding import Severity
from thruline.proof.power_leads import suits
from thruline.rig.chart import Chart, Governs, Way
from thruline.rig.footprints import corners_of
from thruline.rig.socket import Socket, SocketKind, Wiring
from thruline.rig.whole import Rig
from thruline.workshop.face import Shelf
from thruline.workshop.shelf import sheet_called

ENDING = ".rig.toml"

_TO_ECHO = at("cable", "feet.midi-out>echo.midi-in")
_PEDAL = at("cable", "pedal.output>feet.exp")
_POWER = at("cable", "supply.outlet-1>feet.power-in")
_EDGE_MM = 10
"""Room that is left at an edge to which the board was made larger."""
_WIDEST_MM = 5000
"""What a document takes as the size of a board at most."""
_MIDI_CONTACTS = ("2", "4", "5")
"""What a DIN lead needs; power on the others must not reach a unit that expects none."""
_TAKEN_OUTLETS = 3
"""So many outlets of the supply are in use on the first board, the first one by the controller."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewRig:
    """A rig document that was made, and its proof."""

    file: str
    opened: Opened
    proof: Proof


def file_name(name: str) -> str:
    """The name of a rig document, with its ending. Raises CannotUse when nothing is before it."""
    stem = name.removesuffix(ENDING).removesuffix(".toml")
    if stem.replace("\\", "/").rpartition("/")[2] in ("", ".", ".."):
        raise CannotUse(f'"{name}" is no name for a rig document; one reads like my-board{ENDING}')
    return f"{stem}{ENDING}"


def board_name(file: str) -> str:
    """What a rig is called after its file: `my-board.rig.toml` is "My board"."""
    stem = file.replace("\\", "/").rsplit("/", 1)[-1].removesuffix(ENDING)
    words = " ".join(stem.replace("_", " ").replace("-", " ").split())
    return f"{words[:1].upper()}{words[1:]}" or "My rig"


def first_board(text: str, name: str, *, controller: str | None, shelves: Sequence[Shelf]) -> str:
    """The text of the first board under a name, with another controller if one is given.

    Raises CannotUse when the rig cannot have that name, or the chart is of no controller.
    """
    edits = [set_to(at("rig").child("name"), name)]
    if controller is not None:
        chart = open_chart(sheet_called(shelves, controller))
        if chart.abilities is None:
            raise CannotUse(
                f"{chart.full_name} ({chart.id}) is a {chart.kind} and recalls no presets; "
                "`thruline chart list --kind controller` shows what does"
            )
        supply = open_chart(sheet_called(shelves, "elstar-supply"))
        edits += _with_controller(chart, supply)
    made = apply(text, edits)
    try:
        rig = open_rig(made, file="the new rig", shelves=shelves).rig
    except BadDocument as bad:
        raise CannotUse(f'"{name}" cannot be the name of a rig: {bad.problems[0].says}') from None
    return apply(made, tuple(_with_room(rig)))


def new_json(made: NewRig) -> Json:
    """What was made, for other programs."""
    rig = made.opened.rig
    return answer(
        "new",
        file=made.file,
        rig=rig.name,
        controller=rig.controller.chart.id if rig.controller else None,
        units=len(rig.units),
        presets=len(rig.presets),
        counts={severity.value: made.proof.count(severity) for severity in Severity},
    )


def _with_room(rig: Rig) -> Iterator[Edit]:
    """A larger board, where a unit would stand over its edge to the right or to the player."""
    if rig.board is None:
        return
    size = at("rig").child("board")
    corners = [one for unit in rig.units.values() for one in corners_of(unit) or ()]
    for side, has, reach in (
        ("width", rig.board.width, max((x for x, _ in corners), default=0)),
        ("depth", rig.board.depth, max((y for _, y in corners), default=0)),
    ):
        if reach > has:
            yield set_to(size.child(side), _in_tens(reach + _EDGE_MM))


def _in_tens(mm: float) -> int:
    return min(math.ceil(mm / 10) * 10, _WIDEST_MM)


def _with_controller(chart: Chart, supply: Chart) -> Iterator[Edit]:
    """What changes on the first board when another controller takes the place of its own."""
    feet = at("unit", "feet")
    yield set_to(feet.child("chart"), chart.id)
    if chart.size is None:  # where it would stand, nobody can tell
        yield remove(feet.child("place"))
    out = _midi_out(chart)
    yield from _from_output(chart, out, feet)
    yield from _with_pedal(chart)
    yield from _with_power(chart, supply)
    if chart.abilities is not None and "control" not in chart.abilities.sends:
        yield set_to(at("preset", 2).child("reverb"), "07")
        yield set_to(at("preset", 3).child("echo"), "05")


def _midi_out(chart: Chart) -> Socket:
    """The first MIDI output that can carry the controller's own messages."""
    own = (Way.OWN, Way.MERGE)
    for socket in chart.sockets.values():
        output = chart.outputs.get(socket.id)
        speaks = output is not None and any(way in own for way in output.ways)
        if socket.kind is SocketKind.MIDI_OUT and speaks:
            return socket
    raise CannotUse(
        f"the chart {chart.id} has no MIDI output that sends the controller's own messages; "
        "add an [[output]] to it first"
    )


def _from_output(chart: Chart, out: Socket, feet: Address) -> Iterator[Edit]:
    """The lead to the first unit, made for this output, and the output set to send."""
    cable: dict[str, Plain] = {"from": f"feet.{out.id}", "to": "echo.midi-in"}
    plug = "din5" if out.connector == "din7" else out.connector
    cable["ends"] = f"{plug}/din5"
    if out.spare_power:
        cable["wiring"] = {contact: contact for contact in _MIDI_CONTACTS}
    elif out.wiring in (Wiring.TYPE_A, Wiring.TYPE_B):
        cable["wiring"] = out.wiring.value
    yield set_to(_TO_ECHO, {**cable, "length": 600})
    for setting in chart.settings.values():
        if setting.governs is Governs.OUTPUT and setting.socket == out.id:
            means = {setting.means.get(value, value): value for value in setting.values}
            chosen = means.get(Way.OWN, means.get(Way.MERGE))
            if chosen is not None:
                yield set_to(feet.child("settings").child(setting.id), chosen)


def _with_pedal(chart: Chart) -> Iterator[Edit]:
    """The pedal in the first input that reads it; without one, no pedal and no sweep."""
    can_sweep = chart.abilities is not None and "control" in chart.abilities.sends
    readable = ("wiper-on-tip", "either")
    fits = [
        one.socket
        for one in chart.pedals.values()
        if one.wiring in readable and chart.sockets[one.socket].connector == "trs-6.35"
    ]
    if fits and can_sweep:
        yield set_to(at("sweep", "Swell").child("pedal"), f"feet.{fits[0]}")
        yield set_to(_PEDAL.child("to"), f"feet.{fits[0]}")
        return
    yield remove(at("sweep", "Swell"))
    yield remove(_PEDAL)
    yield remove(at("unit", "pedal"))


def _with_power(chart: Chart, supply: Chart) -> Iterator[Edit]:
    """Power from the first outlet that suits; none where nothing does, as the proof then tells."""
    sockets = [one for one in chart.sockets.values() if one.kind is SocketKind.POWER_IN]
    need, outlets = chart.power, list(supply.outlets.values())
    free = [*outlets[:1], *outlets[_TAKEN_OUTLETS:]]
    fits = [one for one in free if need is not None and suits(one, need)]
    if not sockets or not fits:
        yield remove(_POWER)
        return
    cable: dict[str, Plain] = {"from": f"supply.{fits[0].socket}", "to": f"feet.{sockets[0].id}"}
    cable["ends"] = f"{supply.sockets[fits[0].socket].connector}/{sockets[0].connector}"
    yield set_to(_POWER, {**cable, "length": 300})
