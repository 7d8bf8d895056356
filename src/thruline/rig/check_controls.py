"""Controls of a chart: numbers that the standard leaves free, and values that make sense.

Numbers: 0 to 119 are control changes, of which 0 to 31 may be the coarse half of a 14-bit pair
whose fine half is 32 higher; 120 to 127 are channel mode messages (MIDI 1.0 Detailed
Specification).
"""

from collections.abc import Iterator

from thruline.base.address import Address, at
from thruline.document.chart_shape import ChartShape, ControlShape, ScaleShape
from thruline.rig.chart_problem import ChartProblem

_LAST_CONTROL = 119
_LAST_PAIR = 31
_NULL_PARAMETER = 16383
_BANK_SELECT = {"none": (), "msb": (0,), "lsb": (32,), "both": (0, 32)}
_PARAMETER = (6, 38, 96, 97, 98, 99, 100, 101)
"""Data entry, increment, decrement and the selection of parameters."""


def look_at_controls(document: ChartShape) -> Iterator[ChartProblem]:
    """Controls that cannot be reached, clash, or have values that contradict each other."""
    if document.control:
        yield from _reachable(document)
    for one in document.control:
        address = at("control", one.id)
        yield from _number(one, address)
        yield from _range(one, address)
        yield from _zones(one, address)
        if one.scale is not None:
            yield from _scale(one, one.scale, address.child("scale"))
    yield from _clashes(document)


def _reachable(document: ChartShape) -> Iterator[ChartProblem]:
    if document.channel is None:
        yield ChartProblem(
            at("control", document.control[0].id),
            "it has controls, but no channel to hear of them on",
            "add [channel]",
        )
    if document.receive.control is False:
        yield ChartProblem(
            at("receive").child("control"),
            "it has controls, but [receive] says that it takes no control changes",
            "take one of the two away",
        )


def _number(one: ControlShape, address: Address) -> Iterator[ChartProblem]:
    spot = address.child("number")
    match one.message:
        case "cc" if one.number > _LAST_CONTROL:
            yield ChartProblem(
                spot,
                f"{one.number} is no control: 120 to 127 are channel mode messages",
                f"write 0 to {_LAST_CONTROL}",
            )
        case "cc14" if one.number > _LAST_PAIR:
            yield ChartProblem(
                spot,
                f"{one.number} cannot be the coarse half of a 14-bit pair",
                f"write the lower number of the two, 0 to {_LAST_PAIR}",
            )
        case "rpn" | "nrpn" if one.number == _NULL_PARAMETER:
            yield ChartProblem(
                spot,
                f"{_NULL_PARAMETER} is the null selection, not a parameter",
                "write coarse number x 128 + fine number",
            )


def _range(one: ControlShape, address: Address) -> Iterator[ChartProblem]:
    most = 127 if one.message == "cc" else 16383
    if one.low >= one.high:
        yield ChartProblem(
            address.child("low"),
            f"it runs from {one.low} to {one.high}",
            "write the lower wire number in `low`; an upside-down display is told in `scale`",
        )
    if one.high > most:
        yield ChartProblem(
            address.child("high"),
            f"{one.high} does not fit into seven bits",
            f'write at most {most}, or message = "cc14" if it is a pair',
        )
    if one.power_up is not None and not one.low <= one.power_up <= one.high:
        yield ChartProblem(
            address.child("power-up"),
            f"{one.power_up} is outside {one.low} to {one.high}",
            "correct one of them",
        )
    if one.kind in ("switch", "momentary", "toggle-any"):
        yield from _switch(one, address)


def _switch(one: ControlShape, address: Address) -> Iterator[ChartProblem]:
    """Off up to 63, on from 64 (MIDI 1.0 Detailed Specification)."""
    if one.message == "cc14" or one.high > 127:
        yield ChartProblem(
            address.child("kind"),
            f"a {one.kind} has seven bits, and this one has fourteen",
            'write kind = "range", or message = "cc" and high = 127',
        )
    elif one.kind == "switch" and not one.low < 64 <= one.high:
        yield ChartProblem(
            address.child("kind"),
            f"a switch changes between 63 and 64, and this one runs from {one.low} to {one.high}",
            'write kind = "steps" with its own zones',
        )


def _zones(one: ControlShape, address: Address) -> Iterator[ChartProblem]:
    spot = address.child("zones")
    if one.kind == "steps" and not one.zones:
        yield ChartProblem(spot, "steps have no zones", "write which values mean which choice")
    if one.zones and one.kind in ("momentary", "toggle-any"):
        yield ChartProblem(
            spot, f"nothing stays of a {one.kind}, so it has no zones", "remove them"
        )
    labels: set[str] = set()
    past = -1
    for zone in one.zones:
        entry = address.child("zones", zone.label)
        label = zone.label.strip().lower()
        if label in labels or label != zone.label.lower():
            yield ChartProblem(
                entry, f'"{zone.label}" is not a label of its own', "name it as the display does"
            )
        labels.add(label)
        if zone.low > zone.high or zone.low < one.low or zone.high > one.high:
            yield ChartProblem(
                entry,
                f'"{zone.label}" is {zone.low} to {zone.high}, and the control runs '
                f"from {one.low} to {one.high}",
                "correct one of them",
            )
        elif zone.low <= past:
            yield ChartProblem(
                entry,
                f'"{zone.label}" begins at {zone.low}, before the zone in front of it has ended',
                "list zones from the lowest to the highest, each behind the other",
            )
        past = max(past, zone.high)


def _scale(one: ControlShape, scale: ScaleShape, address: Address) -> Iterator[ChartProblem]:
    """A scale must lead back to the value, so its ends must differ and be shown as they are."""
    if one.kind != "range":
        yield ChartProblem(address, f"a {one.kind} shows labels, not a scale", "take it away")
    if scale.low == scale.high:
        yield ChartProblem(
            address.child("high"), f"it shows {scale.low} at both ends", "correct one of them"
        )
    if scale.law == "log" and min(scale.low, scale.high) <= 0:
        yield ChartProblem(
            address.child("law"),
            "a logarithmic scale cannot reach nought or less",
            'write the lowest value above nought, or law = "linear"',
        )
    if scale.unit != scale.unit.strip():
        yield ChartProblem(address.child("unit"), "blanks around the measure", "remove them")
    for key, end in (("low", scale.low), ("high", scale.high)):
        if round(end, scale.decimals) != end:
            yield ChartProblem(
                address.child(key),
                f"with {scale.decimals} decimals the display cannot show {end}",
                "correct `decimals` or the end of the scale",
            )


def _clashes(document: ChartShape) -> Iterator[ChartProblem]:
    """Two things on one number."""
    taken = dict(_reserved(document))
    for one in document.control:
        spot = at("control", one.id).child("number")
        for key, what in _claims(one):
            if key in taken:
                yield ChartProblem(
                    spot,
                    f"{what} is {taken[key]} already",
                    "look the numbers up again; one number can do one thing only",
                )
            taken.setdefault(key, f'"{one.id}"')


def _reserved(document: ChartShape) -> Iterator[tuple[tuple[str, int], str]]:
    """Control numbers that the unit needs for bank select and parameters."""
    if document.programs is not None:
        for number in _BANK_SELECT[document.programs.bank_select]:
            yield ("cc", number), "bank select"
    if any(one.message in ("rpn", "nrpn") for one in document.control):
        for number in _PARAMETER:
            yield ("cc", number), "needed for parameters"


def _claims(one: ControlShape) -> Iterator[tuple[tuple[str, int], str]]:
    if one.message == "cc14":
        yield ("cc", one.number), f"control {one.number}"
        yield ("cc", one.number + 32), f"control {one.number + 32}, the fine half of the pair,"
    elif one.message == "cc":
        yield ("cc", one.number), f"control {one.number}"
    else:
        yield (one.message, one.number), f"{one.message.upper()} {one.number}"
