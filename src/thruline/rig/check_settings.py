"""Menu items, channel and own messages of a chart: whether what they say can be acted upon."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from thruline.base.address import Address, at
from thruline.document.chart_shape import ChannelShape, ChartShape, SettingShape
from thruline.rig.chart_problem import ChartProblem
from thruline.rig.check_links import named
from thruline.rig.nearest import nearest
from thruline.rig.socket import SocketKind

ON_OFF = ("on", "off")
MEANINGS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "program-receive": ON_OFF,
        "control-receive": ON_OFF,
        "clock-receive": ON_OFF,
        "system-exclusive-receive": ON_OFF,
        "omni": ON_OFF,
        "clock-send": ON_OFF,
        "program-send": ON_OFF,
        "control-send": ON_OFF,
        "expression-wiring": ("wiper-on-tip", "wiper-on-ring"),
    }
)
"""What the values of a setting can stand for, by what it governs (outputs have their ways)."""

_SOCKETS: Mapping[str, tuple[SocketKind, ...]] = MappingProxyType(
    {
        "output": (SocketKind.MIDI_OUT, SocketKind.USB),
        "expression-wiring": (SocketKind.EXPRESSION_IN,),
        "outlet-voltage": (SocketKind.POWER_OUT,),
    }
)


def look_at_settings(document: ChartShape) -> Iterator[ChartProblem]:
    """Settings, the channel, and what the unit sends by itself."""
    for one in document.setting:
        address = at("setting", one.id)
        yield from _values(one, address)
        yield from _socket(document, one, address)
        yield from _meanings(one, _possible(document, one), address)
    yield from _rivals(document)
    yield from _undecided(document)
    yield from _sends(document)
    if document.channel is not None:
        yield from _channel(document.channel)
    yield from _omni(document)


def meanings_of(one: SettingShape) -> Mapping[str, str]:
    """What each value stands for; a setting without `means` means what it says."""
    return one.means or {value: value for value in one.values}


def _values(one: SettingShape, address: Address) -> Iterator[ChartProblem]:
    if len(set(one.values)) < len(one.values):
        yield ChartProblem(address.child("values"), "a value stands there twice", "keep one")
    if one.factory not in one.values:
        meant = nearest(one.factory, one.values)
        yield ChartProblem(
            address.child("factory"),
            f'the factory setting "{one.factory}" is not one of the values',
            f'did you mean "{meant}"?' if meant else f"it can be {', '.join(one.values)}",
        )
    strange = [value for value in one.means if value not in one.values]
    if strange:
        yield ChartProblem(
            address.child("means"),
            f'"{", ".join(strange)}" has a meaning, but is not one of the values',
            f"spell it as in `values`: {', '.join(one.values)}",
        )


def _socket(document: ChartShape, one: SettingShape, address: Address) -> Iterator[ChartProblem]:
    if one.socket is None:
        return
    kinds = _SOCKETS.get(one.governs)
    if kinds is None:
        yield ChartProblem(
            address.child("socket"),
            f"a setting that governs {one.governs} is about the whole unit",
            "take `socket` away",
        )
        return
    sockets = {socket.id: socket for socket in document.socket}
    yield from named(address.child("socket"), one.socket, sockets, kinds=kinds)
    if one.governs == "output" and all(out.socket != one.socket for out in document.output):
        yield ChartProblem(
            address.child("socket"),
            f"no [[output]] says what {one.socket} can do",
            f'add [[output]] with socket = "{one.socket}" and its ways',
        )


def _possible(document: ChartShape, one: SettingShape) -> tuple[str, ...] | None:
    """What the values of a setting may mean; None when anything goes."""
    if one.governs != "output":
        return MEANINGS.get(one.governs)
    governed = [out.ways for out in document.output if one.socket in (None, out.socket)]
    common = (
        [way for way in governed[0] if all(way in ways for ways in governed)] if governed else []
    )
    return tuple(common)


def _meanings(
    one: SettingShape, possible: tuple[str, ...] | None, address: Address
) -> Iterator[ChartProblem]:
    """Every value needs a meaning that fits what the setting governs."""
    if possible is None:
        return
    given = meanings_of(one)
    for value in one.values:
        meaning = given.get(value)
        if meaning not in possible:
            said = f'means "{meaning}"' if meaning else "has no meaning"
            yield ChartProblem(
                address.child("means"),
                f'"{value}" {said}, and the setting governs {one.governs}',
                f"let it mean {' or '.join(possible) or 'a way that its [[output]] has'}",
            )


def _rivals(document: ChartShape) -> Iterator[ChartProblem]:
    """Two settings that decide one thing."""
    decided: dict[tuple[str, str | None], str] = {}
    for one in document.setting:
        if one.governs == "other":
            continue
        about: list[str | None] = [one.socket]
        if one.socket is None and one.governs == "output":
            about = [out.socket for out in document.output]
        for socket in about:
            first = decided.setdefault((one.governs, socket), one.id)
            if first != one.id:
                yield ChartProblem(
                    at("setting", one.id).child("governs"),
                    f'"{one.id}" and "{first}" both govern {one.governs}',
                    "name the `socket` of each, or let one of them govern other",
                )


def _undecided(document: ChartShape) -> Iterator[ChartProblem]:
    """An output with several ways, and nothing that says which."""
    governed = {one.socket for one in document.setting if one.governs == "output"}
    for out in document.output:
        if len(out.ways) > 1 and out.socket not in governed and None not in governed:
            yield ChartProblem(
                at("output", out.socket).child("ways"),
                f"{out.socket} can be {', '.join(out.ways)}, and no setting says which",
                f'add a [[setting]] with governs = "output" and socket = "{out.socket}"',
            )


def _sends(document: ChartShape) -> Iterator[ChartProblem]:
    settings = {one.id: one for one in document.setting}
    for send in document.send:
        address = at("send", send.what).child("setting")
        if send.setting is None:
            continue
        setting = settings.get(send.setting)
        if setting is None:
            meant = nearest(send.setting, settings)
            hint = f'did you mean "{meant}"?' if meant else "add it, or leave `setting` out"
            yield ChartProblem(address, f'there is no setting "{send.setting}"', hint)
        elif not set(meanings_of(setting).values()) <= set(ON_OFF):
            yield ChartProblem(
                address,
                f'"{send.setting}" does not say on and off',
                "give each of its values a meaning, on or off, in `means`",
            )


def _channel(one: ChannelShape) -> Iterator[ChartProblem]:
    address = at("channel")
    if len(set(one.allowed)) < len(one.allowed):
        yield ChartProblem(address.child("allowed"), "a channel stands there twice", "keep one")
    if one.factory is not None and one.factory not in one.allowed:
        yield ChartProblem(
            address.child("factory"),
            f"the factory channel {one.factory} is not allowed",
            "add it to `allowed`, or correct it",
        )
    last = max(one.allowed) + one.occupies - 1
    if last > 16:
        yield ChartProblem(
            address.child("allowed"),
            f"set to {max(one.allowed)}, its {one.occupies} channels would end at {last}",
            f"allow channels up to {17 - one.occupies}",
        )


def _omni(document: ChartShape) -> Iterator[ChartProblem]:
    """Omni by a setting needs one, and the other way round."""
    by_setting = document.channel is not None and document.channel.omni == "setting"
    setting = next((one for one in document.setting if one.governs == "omni"), None)
    if by_setting and setting is None:
        yield ChartProblem(
            at("channel").child("omni"),
            "no setting governs omni",
            'add a [[setting]] with governs = "omni", or say "always" or "never"',
        )
    if setting is not None and not by_setting:
        yield ChartProblem(
            at("setting", setting.id).child("governs"),
            'a setting governs omni, but [channel] does not say omni = "setting"',
            "write it there",
        )
