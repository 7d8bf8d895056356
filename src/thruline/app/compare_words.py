"""The tasks of a work order in trade words."""

import difflib
from collections.abc import Iterator, Sequence

from thruline.base.errors import CannotUse
from thruline.compare.facts import Fact, Part
from thruline.compare.work import Change, Kind, Task
from thruline.midi.decode import decode
from thruline.midi.words import in_words
from thruline.rig.controller import Routing
from thruline.rig.unit import called, marked
from thruline.rig.whole import Rig


def task_words(task: Task, old: Rig, new: Rig) -> str:
    """What to do, in a few words."""
    if any(change.key.part is Part.CABLE for change in task.changes):
        return _cable_words(task, old, new)
    if task.kind in (Kind.ENTER, Kind.CLEAR, Kind.PEDAL):
        return _memory_words(task, old, new)
    whose, change = task.whose, task.changes[0]
    match task.kind:
        case Kind.TAKE_OFF:
            return f"take {_unit(old, whose)} off the board"
        case Kind.PUT_ON:
            other = f" in place of {_unit(old, whose)}" if change.before is not None else ""
            return f"put {_unit(new, whose)} on the board{other}"
        case Kind.MOVE:
            return f"move {_unit(new, whose)}"
        case Kind.SET:
            return f"set {_unit(new, whose)}"
        case Kind.SOUND:
            return "the sound takes another way"
        case Kind.OUTPUTS:
            return f"tell {_controller(new)} which output each of these is behind"
        case _:
            return "print the stage sheets anew"


def _cable_words(task: Task, old: Rig, new: Rig) -> str:
    change = task.changes[0]
    ends = _jack(old, change.key.whose), _stop(old, change)
    if task.kind is Kind.REPLUG:
        again = task.changes[1]
        now = _jack(new, again.key.whose), _stop(new, again)
        return f"the cable between {' and '.join(ends)} goes between {' and '.join(now)}"
    if change.after is None:
        return f"take away the cable between {' and '.join(ends)}"
    verb = "make a cable" if change.before is None else "make another cable"
    return f"{verb} from {_jack(new, change.key.whose)} to {_stop(new, change)}"


def _memory_words(task: Task, old: Rig, new: Rig) -> str:
    if task.kind is Kind.ENTER:
        return _preset_words(new, task.changes[0])
    if task.kind is Kind.CLEAR:
        return f"clear preset {_preset(old, task.whose)}"
    numbers = ", ".join(one.key.which for one in task.changes)
    known = new if task.changes[0].after is not None else old
    return f"enter pedal {_jack(known, task.whose)} on presets {numbers}"


def _preset_words(new: Rig, change: Change) -> str:
    title = _preset(new, change.key.whose)
    before, after = change.before, change.after
    if before is None:
        return f"enter preset {title}, which is new"
    same = isinstance(before, tuple) and isinstance(after, tuple) and before[1:] == after[1:]
    return f"give preset {title} its new name" if same else f"enter preset {title} anew"


def details(task: Task, new: Rig) -> list[str]:
    """What exactly changes, row by row."""
    return [row for change in task.changes for row in _details(task, change, new)]


def _details(task: Task, change: Change, new: Rig) -> Iterator[str]:
    key = change.key
    match key.part:
        case Part.PLACE if change.after is not None:
            yield f"{_place(change.before)} to {_place(change.after)}"
        case Part.CABLE if task.kind is not Kind.REPLUG:
            if change.before is not None and change.after is not None:
                yield f"was {_cable(change.before)}"
            if change.after is not None:
                yield _cable(change.after)
        case Part.CHANNEL | Part.SETTING | Part.OUTPUT:
            yield from _set_words(change, new)
        case Part.MEMORY if change.after is not None:
            yield from _typed_anew(change, new)
        case Part.PEDAL if key == task.changes[0].key:
            yield from _pedal(change, new)
        case Part.SOUND:
            yield " > ".join(map(str, _items(change.after))) or "no way is written"
        case Part.SET:
            yield from _songs(change)
        case _:
            return


def _set_words(change: Change, new: Rig) -> Iterator[str]:
    """One thing that is set, and where; what goes with its unit needs no words."""
    if change.key.part is Part.OUTPUT:
        yield _output_words(change, new)
    elif change.after is not None:
        yield _setting_words(change, new)


def _setting_words(change: Change, new: Rig) -> str:
    unit = new.units[change.key.whose]
    was = "" if change.before is None else f" (was {change.before})"
    if change.key.part is Part.CHANNEL:
        where = unit.chart.channel.where if unit.chart.channel else ""
        return f"MIDI channel {change.after}{was}{_where(where)}"
    setting = unit.chart.settings.get(change.key.which)
    name, where = (setting.name, setting.where) if setting else (change.key.which, "")
    return f"{name} {change.after}{was}{_where(where)}"


def _output_words(change: Change, new: Rig) -> str:
    """A unit of the controller's set-up, its channel there, and its output."""
    name = _unit(new, change.key.whose)
    if change.after is None:
        return f"{name}: it is not addressed any more"
    was = f" (was {_told(change.before, new)})" if change.before is not None else ""
    return f"{name}: {_told(change.after, new)}{was}"


def _told(fact: Fact, rig: Rig) -> str:
    channel, socket = _items(fact)
    return f"channel {channel}, output {_output(str(socket), rig)}"


def _output(socket: str, rig: Rig) -> str:
    return marked(rig.controller, socket) if rig.controller else socket


def _controller(rig: Rig) -> str:
    return rig.controller.name if rig.controller else "the controller"


def _where(where: str) -> str:
    return f", {where}" if where else ""


def _typed_anew(change: Change, new: Rig) -> Iterator[str]:
    """The rows of a preset's memory that go (-) and come (+); all of them where it is new."""
    before, after = _typed(change.before, new), _typed(change.after, new)
    if change.before is None:
        yield from after
        return
    for what, *place in difflib.SequenceMatcher(None, before, after).get_opcodes():
        if what != "equal":
            yield from (f"- {row}" for row in before[place[0] : place[1]])
            yield from (f"+ {row}" for row in after[place[2] : place[3]])


def _typed(memory: Fact, rig: Rig) -> list[str]:
    """A memory as it is typed: its name, its messages in the numbers of the controller, loops."""
    if not isinstance(memory, tuple):
        return []
    name, messages, loops = memory
    rows = [f"name {name}"]
    for message in _items(messages):
        pause, data, goes = _items(message)
        if pause:
            rows.append(f"wait {int(str(pause)) / 1000:g} ms")
        rows.append(_message(bytes.fromhex(str(data)), rig) + _goes(str(goes), rig))
    return rows + [str(one) for one in _items(loops)]


def _goes(goes: str, rig: Rig) -> str:
    """Behind what is entered: over which output it goes, or for whom it is."""
    abilities = rig.controller.chart.abilities if rig.controller else None
    if not goes or abilities is None:
        return ""
    if abilities.routing is Routing.BY_UNIT:
        return f" for {_unit(rig, goes)}"
    return f" over {_output(goes, rig)}"


def _message(data: bytes, rig: Rig) -> str:
    abilities = rig.controller.chart.abilities if rig.controller else None
    first = abilities.programs_from if abilities else 0
    match data[0] & 0xF0:
        case 0xC0:
            return f"{(data[0] & 0x0F) + 1}: program {data[1] + first}"
        case 0xB0:
            return f"{(data[0] & 0x0F) + 1}: control {data[1]} = {data[2]}"
        case _:
            try:
                return in_words(decode(data))
            except CannotUse:
                return f"bytes {data.hex(' ').upper()}"


def _pedal(change: Change, new: Rig) -> Iterator[str]:
    if change.after is None:
        yield "it moves nothing there any more"
    for move in _items(change.after):
        channel, number, heel, toe, curve, goes = _items(move)
        yield (
            f"channel {channel}, control {number}{_goes(str(goes), new)}: heel {heel}, toe {toe}, "
            f"curve {_curve(_items(curve))}"
        )


def _curve(curve: Sequence[Fact]) -> str:
    """A curve as it is entered: its name, or every point as travel and share."""
    name, points = curve
    pairs = ["/".join(str(percent) for percent in _items(point)) for point in _items(points)]
    return " ".join((str(name), *pairs))


def _songs(change: Change) -> Iterator[str]:
    before = [str(_items(song)[0]) for song in _items(change.before)]
    after = [str(_items(song)[0]) for song in _items(change.after)]
    gone = [name for name in before if name not in after]
    come = [name for name in after if name not in before]
    if gone:
        yield f"out: {', '.join(gone)}"
    if come:
        yield f"in: {', '.join(come)}"
    if not gone and not come:
        yield "other tempos, presets or another order"


def _items(fact: Fact) -> Sequence[Fact]:
    return fact if isinstance(fact, tuple) else ()


def _cable(fact: Fact) -> str:
    plugs, joins, length = _items(fact)
    pairs = ", ".join("-".join(map(str, _items(pair))) for pair in _items(joins))
    measure = "length not written" if length is None else f"{length} mm"
    return f"{'/'.join(map(str, _items(plugs)))}, {measure}, contacts {pairs}"


def _place(fact: Fact) -> str:
    if fact is None:
        return "elsewhere"
    x, y, turn = _items(fact)
    return f"{x} mm from the left, {y} mm from the back" + (f", turned {turn}°" if turn else "")


def _unit(rig: Rig, name: str) -> str:
    return called(rig.units, name)


def _jack(rig: Rig, words: str) -> str:
    name, _, socket = words.partition(".")
    unit = rig.units.get(name)
    if unit is None or socket not in unit.chart.sockets:
        return words
    return f"{_unit(rig, name)} {marked(unit, socket)}"


def _stop(rig: Rig, change: Change) -> str:
    return _jack(rig, change.key.which.partition("#")[0])


def _preset(rig: Rig, number: str) -> str:
    preset = rig.preset(int(number))
    return preset.title if preset else number
