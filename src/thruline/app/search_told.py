"""A search as a colleague reads it: one page with all that was seen, and what is left."""

from collections.abc import Iterator

from thruline.app.locate import confirm, spent
from thruline.find.field import Field
from thruline.find.next_check import telling
from thruline.find.search import Did, Step, Verdict
from thruline.find.standing import Standing
from thruline.find.story import answer_words, conclusion, doubt, minutes, percent, ruled_out_by
from thruline.papers.paper import Paper
from thruline.papers.search_record import Left, Next, Told, Tried, search_record
from thruline.rig.whole import Rig

MOST_LEFT = 6
"""Suspects that are told of."""
LEAST = 0.01
"""What is less likely is not told of."""
MOST_NEXT = 3
MOST_RULED_OUT = 2
"""What each answer made unlikely, the most telling of it; a page is soon full."""
NO_LONGER_ASKED = (Verdict.WORKS, Verdict.NOTHING_FOUND)
_PLACES = {
    "bench": "on the bench",
    "telephone": "at the other end of a telephone",
    "stage": "on a stage",
}


def told_paper(standing: Standing) -> Paper:
    """The record of a search as it stands."""
    return search_record(told_of(standing))


def told_of(standing: Standing) -> Told:
    """A search in words."""
    field = standing.belief.field
    return Told(
        name=field.meant.rig.name,
        rig=tuple(rig_in_three(field, _PLACES[standing.search.place])),
        said=standing.search.said,
        says=conclusion(standing),
        tried=tuple(_tried(standing)),
        left=tuple(_left(standing)),
        after=tuple(_after(standing)),
        spent=minutes(spent(standing)),
        doubt=doubt(standing, in_full=True) or "",
    )


def rig_in_three(field: Field, place: str) -> Iterator[str]:
    """The rig in three sentences: what it is, how messages run, what was pressed."""
    rig = field.meant.rig
    controller = rig.controller.name if rig.controller is not None else "no controller"
    heard = sum(unit.chart.listens for unit in rig.units.values())
    yield f"{heard} units that listen, played from {controller}; {len(rig.presets)} presets."
    yield f"MIDI runs {'; '.join(_lines(field, rig)) or 'nowhere'}."
    presses = ", ".join(f"{one.number} “{one.name}”" for one in field.meant.presses)
    yield f"The board is {place}; the presets that were tried are {presses}."


def _lines(field: Field, rig: Rig) -> Iterator[str]:
    """Every line of leads from where it begins: at the controller, or where it branches off."""
    ahead: dict[str, list[str]] = {}
    for link in field.meant.case.board.network.links:
        if link.carries is not False and link.stop.unit not in ahead.get(link.start.unit, ()):
            ahead.setdefault(link.start.unit, []).append(link.stop.unit)
    starts = [rig.controller.id] if rig.controller is not None else []
    seen: set[str] = set()
    while starts:
        here = starts.pop(0)
        for onward in ahead.get(here, ()):
            line = [here, onward]
            while line[-1] not in seen and len(ahead.get(line[-1], ())) == 1:
                seen.add(line[-1])
                line.append(ahead[line[-1]][0])
            if line[-1] not in seen:
                seen.add(line[-1])
                starts.append(line[-1])
            yield " → ".join(rig.units[one].name for one in line)


def _tried(standing: Standing) -> Iterator[Tried]:
    field, search = standing.belief.field, standing.search
    fallen = ruled_out_by(field, search)
    for step, ruled_out in zip(search.steps, fallen, strict=True):
        more = len(ruled_out) - MOST_RULED_OUT
        rest = (f"{more} more",) if more > 0 else ()
        yield Tried(*_step(field, step), ruled_out[:MOST_RULED_OUT] + rest)


def _step(field: Field, step: Step) -> tuple[str, str, str]:
    """What was done, what was seen, and what it takes."""
    if step.did is Did.MENDED:
        done = next((one for one in field.suspects if one.mend_key == step.on), None)
        return "mended", done.mend if done is not None else step.on, ""
    check = field.check(step.on)
    match step.did:
        case Did.CANNOT:
            return check.asks, "cannot be done here", ""
        case Did.NOT_SURE:
            return check.asks, "not sure", minutes(check.seconds)
        case _:
            return check.asks, answer_words(field, check, step.answer), minutes(check.seconds)


def _left(standing: Standing) -> Iterator[Left]:
    belief = standing.belief
    rows = [(share, one.says, one.mend) for one, share in belief.ranked()[:MOST_LEFT]]
    rows.append((belief.nothing, "nothing is wrong" + " any more" * bool(belief.mended), ""))
    rows.append((belief.other, "something that is not among the suspects", ""))
    rows.append((belief.both, "two of these at once (counted in above)", ""))
    rows.sort(key=lambda one: -one[0])
    for share, says, mend in rows:
        if share >= LEAST:
            yield Left(percent(share), says, mend)


def _after(standing: Standing) -> Iterator[Next]:
    """The mend that is due with what confirms it, else the checks that tell most for their time."""
    if standing.mend is not None:
        yield Next(standing.mend.mend, "")
    if standing.verdict in NO_LONGER_ASKED:
        return
    known = confirm(standing) if standing.mend is not None else standing.check
    checks = [known] if known is not None else []
    others = telling(standing.belief, standing.search, MOST_NEXT)
    checks += [one for one in others if known is None or one.id != known.id]
    for check in checks[:MOST_NEXT]:
        yield Next(check.asks, minutes(check.seconds), check.caution)
