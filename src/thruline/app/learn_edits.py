"""What was learned as edits of a document, with what remains unknown about each."""

from collections.abc import Iterator, Mapping

from thruline.app.learn_said import Remark, Said
from thruline.app.load import Opened
from thruline.base.address import Address, at
from thruline.base.edit import Edit, Plain, add_to, set_to
from thruline.base.errors import CannotUse
from thruline.learn.agree import pauses_before
from thruline.learn.channels import moved_says
from thruline.learn.learned import Learned, LearnedPreset
from thruline.learn.meaning import control_moved, goals_of, stored_of, written
from thruline.learn.sweeps import LearnedMove, LearnedSweep
from thruline.rig.chart import Chart
from thruline.rig.nearest import nearest
from thruline.rig.spans import spans
from thruline.rig.stored import write_stored
from thruline.rig.unit import Unit

FEW_SILENT = 0.15
"""A sweep that is silent on no more presets than this share may have been misheard there."""
Learnt = tuple[Edit | None, list[Remark]]
"""An edit, if anything could be made of it, and what remains unknown about the same thing."""


def learned_edits(
    learned: Learned, said: Said, *, opened: Opened, units: Mapping[int, Unit]
) -> Iterator[Learnt]:
    """Presets, then sweeps, into a document that has the units already.

    Raises CannotUse when a pedal input was named that the controller has not.
    """
    for preset in learned.presets:
        yield from _preset(preset, learned, said, opened=opened, units=units)
    taken: dict[str, set[int]] = {}
    for sweep in learned.sweeps:
        yield from _sweep(sweep, learned, said, opened=opened, units=units, taken=taken)


def whole_remarks(learned: Learned, opened: Opened) -> Iterator[Remark]:
    """What nobody can hear of any board."""
    if not opened.rig.cables:
        yield Remark(
            None,
            "how the units are joined: write a [[cable]] for every MIDI lead, from the output to "
            "the input; until then the proof says that nothing arrives",
        )
    yield Remark(None, "relay loops, sound and power: none of that is sent over MIDI")
    if learned.account.left or learned.account.malformed:
        yield Remark(
            None,
            f"what {learned.account.left} messages and {learned.account.malformed} broken pieces "
            "were: they fit nothing, so they were taken for damage on the line",
        )


def _chart(opened: Opened) -> Chart | None:
    return opened.rig.controller.chart if opened.rig.controller else None


def _preset(
    preset: LearnedPreset,
    learned: Learned,
    said: Said,
    *,
    opened: Opened,
    units: Mapping[int, Unit],
) -> Iterator[Learnt]:
    chart = _chart(opened)
    abilities = chart.abilities if chart else None
    goals = goals_of(preset.agreed, units)
    step_ms = abilities.pauses.step_ms if abilities and abilities.pauses else 1
    pauses = pauses_before(
        preset.agreed,
        own_us=learned.own_us,
        running_status=learned.running_status,
        step_ms=step_ms,
    )
    stored = stored_of(
        preset.agreed, pauses, programs_from=abilities.programs_from if abilities else 0
    )
    where = at("preset", preset.number)
    entry: dict[str, Plain] = {unit: _told(goal) for unit, goal in goals.by_unit.items()}
    entry["messages"] = [write_stored(one) for one in stored]
    unknown = [Remark(where, says) for says in _doubts(preset)]
    unknown += [Remark(where, says) for says in dict.fromkeys(goals.unknown)]
    if opened.rig.preset(preset.number) is not None:
        for key, value in entry.items():
            yield set_to(where.child(key), value), unknown
            unknown = []
        return
    name = said.presets.get(preset.number) or preset.name
    if not name:
        unknown.append(Remark(where, "what it is called"))
    head: dict[str, Plain] = {"number": preset.number, "name": name or f"Preset {preset.number}"}
    yield add_to(at("preset"), {**head, **entry}), unknown


def _told(goal: Mapping[str, int | str]) -> Plain:
    """A goal as a person writes it: a program alone in one word."""
    return goal["program"] if set(goal) == {"program"} else dict(goal)


def _doubts(preset: LearnedPreset) -> Iterator[str]:
    if not preset.is_numbered:
        yield "which number it has on the controller: nobody said, so it was counted"
    if preset.presses == 1:
        yield "whether all of this is right: it was pressed once only"
        return
    open_ones = [one for one in preset.agreed if not one.is_sure]
    if open_ones:
        listed = ", ".join(one.data.hex(" ").upper() for one in open_ones[:4])
        yield f"whether it sends {listed}: not most of its {preset.presses} presses did"


def _sweep(
    sweep: LearnedSweep,
    learned: Learned,
    said: Said,
    *,
    opened: Opened,
    units: Mapping[int, Unit],
    taken: dict[str, set[int]],
) -> Iterator[Learnt]:
    where = at("sweep", sweep.name)
    moves, unknown = list[dict[str, Plain]](), list[Remark]()
    for move in sweep.moves:
        found = _move(move, units, where)
        moves += [found[0]] if found[0] else []
        unknown += found[1]
    if not moves:
        yield None, [Remark(None, one.says) for one in unknown]
        return
    pedal, is_taken = _pedal(sweep, said, opened, taken)
    if is_taken:
        unknown.append(Remark(where, f"which pedal moves it: {pedal} was taken, as it is free"))
    every = {one.number for one in learned.presets}
    unknown += [Remark(where, says) for says in _sweep_doubts(sweep, every)]
    is_all = bool(every) and set(sweep.presets) == every
    entry: dict[str, Plain] = {"name": sweep.name, "pedal": pedal}
    entry["presets"] = "all" if is_all or not sweep.presets else list(sweep.presets)
    yield add_to(at("sweep"), {**entry, "moves": list(moves)}), unknown


def _sweep_doubts(sweep: LearnedSweep, every: set[int]) -> Iterator[str]:
    """What the capture leaves open about a sweep; `every` are the numbers of all presets."""
    if not sweep.is_named:
        yield "what the player calls it"
    if not sweep.by_recall:
        on = spans(sweep.presets) or "none that is known"
        yield f"on which presets it works: it was moved on {on} only"
    silent = every - set(sweep.presets)
    if sweep.by_recall and 0 < len(silent) <= FEW_SILENT * len(every):
        yield f"whether it works on {spans(silent)} too: nothing came of it there"


def _move(
    move: LearnedMove, units: Mapping[int, Unit], where: Address
) -> tuple[dict[str, Plain] | None, list[Remark]]:
    """One move as the document has it, and what is unknown about it."""
    channel, says = move.moved.channel + 1, moved_says(move.moved)
    unit = units.get(channel)
    control = control_moved(move.moved, unit) if unit else None
    if unit is None or control is None:
        whose = unit.name if unit else f"whatever is on channel {channel}"
        return None, [
            Remark(where, f"what {says} of {whose} is, which goes from {move.heel} to {move.toe}")
        ]
    curve = move.fitted.curve
    plain: Plain = [list(point) for point in curve.points] if curve.points else curve.name
    found: dict[str, Plain] = {
        "unit": unit.id,
        "control": control.id,
        "heel": written(control, move.heel),
        "toe": written(control, move.toe),
        "curve": plain,
    }
    doubt = f"the curve of {control.name} of {unit.name}: the values do not give it away"
    return found, [] if move.fitted.is_sure else [Remark(where, doubt)]


def _pedal(
    sweep: LearnedSweep, said: Said, opened: Opened, taken: dict[str, set[int]]
) -> tuple[str, bool]:
    """The controller's input that a sweep hangs on, and whether that was only taken."""
    controller, chart = opened.rig.controller, _chart(opened)
    inputs = list(chart.pedals) if chart else []
    head = controller.id if controller else "feet"
    named = next(
        (one for name, one in said.pedals.items() if name.lower() == sweep.name.lower()), ""
    )
    socket = named.removeprefix(f"{head}.")
    if socket and socket not in inputs:
        hint = nearest(socket, inputs)
        also = f'; did you mean "{hint}"?' if hint else f"; it has {', '.join(inputs) or 'none'}"
        raise CannotUse(f'the controller has no pedal input "{socket}"{also}')
    if not socket:
        here = set(sweep.presets)
        free = (one for one in inputs if not taken.get(one, set()) & here)
        socket = next(free, inputs[0] if inputs else "exp-1")
    taken.setdefault(socket, set()).update(sweep.presets)
    return f"{head}.{socket}", not named
