"""The same questions answered by brute force: every short history is walked, step by step.

Nothing here knows of unions, spans or histograms. A history is: power-up with the pedals anywhere,
then recalls, each followed by any movement of any pedal or none.
"""

from collections import Counter
from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

from tests.sameness.scenes import Hand, Scene
from thruline.rig.sweep import POSITIONS
from thruline.sameness.codes import KEEPS, UNTOLD
from thruline.sameness.held import Entering

RECALLS = 3
PLACES = (0, 63, 127)
"""One place on each of the three stairs that `scenes.hand` stretches over the pedal."""


class State(NamedTuple):
    """One column: its code, who wrote it last, and where the two pedals stand."""

    code: int
    writer: str
    places: tuple[int, int]


def hands_on(scene: Scene, preset: int, column: int) -> list[Hand]:
    return [one for one in scene.hands if one.column == column and preset in one.presets]


def place_of(state: State, hand: Hand) -> int:
    return state.places[hand.pedal - 1]


def recalled(scene: Scene, state: State, preset: int, column: int) -> set[State]:
    """After a recall. Which of two messages of pedals comes last is open."""
    own = scene.effects[preset][column]
    after = state if own == KEEPS else state._replace(code=own, writer=f"preset {preset}")
    sent = {
        hand.stairs[place_of(state, hand)]
        for hand in hands_on(scene, preset, column)
        if hand.on_recall and hand.stairs[place_of(state, hand)] >= 0
    }
    return {after._replace(code=code, writer="pedal") for code in sent} or {after}


def pedals_of(scene: Scene, column: int) -> set[int]:
    """The pedals that move the column on some preset; the place of others makes no difference."""
    return {hand.pedal for hand in scene.hands if hand.column == column}


def moved(scene: Scene, state: State, preset: int, column: int) -> Iterator[State]:
    """After any movement of any one pedal."""
    for pedal, place in product(pedals_of(scene, column), PLACES):
        places = list(state.places)
        places[pedal - 1] = place
        after = state._replace(places=(places[0], places[1]))
        sent = {
            hand.stairs[place]
            for hand in hands_on(scene, preset, column)
            if hand.pedal == pedal and hand.stairs[place] >= 0
        }
        if sent:
            yield from (after._replace(code=code, writer="pedal") for code in sent)
        else:
            yield after


def entered(scene: Scene, column: int) -> list[set[State]]:
    """For each preset, every state right after its recall, over all histories."""
    pedals = pedals_of(scene, column)
    stands = product(*(PLACES if pedal in pedals else PLACES[:1] for pedal in (1, 2)))
    now = {State(scene.power_up[column], "power-up", (one, other)) for one, other in stands}
    found: list[set[State]] = [set() for _ in scene.presets]
    for _ in range(RECALLS):
        later = set()
        for preset in scene.presets:
            after = {end for state in now for end in recalled(scene, state, preset, column)}
            found[preset] |= after
            later |= after
            for _ in pedals:
                after |= {end for state in after for end in moved(scene, state, preset, column)}
            later |= after
        now = later
    return found


def classify(states: set[State], preset: int) -> Entering:
    """What the states right after a recall say of a column."""
    codes = {state.code for state in states}
    own = f"preset {preset}"
    if any(state.code == UNTOLD and state.writer == own for state in states):
        return Entering.UNTOLD
    written = {state for state in states if state.writer != "power-up"}
    by_pedal = {state for state in written if state.writer == "pedal"}
    others = written - by_pedal - {state for state in written if state.writer == own}
    by_place: dict[tuple[int, int], set[int]] = {}
    for state in written:
        by_place.setdefault(state.places, set()).add(state.code)
    if by_pedal and not others and all(len(codes) == 1 for codes in by_place.values()):
        return Entering.PEDAL
    if len(codes - {UNTOLD}) > 1:
        return Entering.SEVERAL
    return Entering.UNTOLD if UNTOLD in codes else Entering.ONE


def ends(scene: Scene, preset: int, column: int) -> Iterator[int]:
    """What is left after power-up, a preset, and each place of each pedal, or none moved.

    Pedals whose place does not matter are counted place by place all the same.
    """
    start = State(scene.power_up[column], "power-up", (0, 0))
    hands = hands_on(scene, preset, column)
    own = scene.effects[preset][column]
    still = start.code if own == KEEPS else own
    if not hands:
        yield from (still for _ in range(POSITIONS + 1))
        return
    if not any(answered_everywhere(hands, pedal) for pedal in (1, 2)):
        yield still
    for hand in hands:
        yield from (code for code in hand.stairs if code >= 0)


def answered_everywhere(hands: list[Hand], pedal: int) -> bool:
    """Whether a recall sends a place of this pedal that is obeyed, wherever it stands."""
    stairs = [hand.stairs for hand in hands if hand.on_recall and hand.pedal == pedal]
    return bool(stairs) and all(max(steps) >= 0 for steps in zip(*stairs, strict=True))


class Counted(NamedTuple):
    """One preset and column: cells and pairs that differ from the usual code, and unknown ones."""

    cells: int
    pairs: int
    hidden: int


def usual(scene: Scene, column: int) -> int | None:
    """The code that most cells leave; of two, the lower."""
    seen = Counter(
        code for preset in scene.presets for code in ends(scene, preset, column) if code >= 0
    )
    return min(seen, key=lambda code: (-seen[code], code)) if seen else None


def counted(scene: Scene, entered_preset: int, column: int) -> Counted:
    """Every other preset, every place: what a preset that keeps the column finds there."""
    common = usual(scene, column)
    cells = pairs = hidden = 0
    for preset in scene.presets:
        if preset != entered_preset:
            found = list(ends(scene, preset, column))
            off = sum(code >= 0 and code != common for code in found)
            cells += off
            pairs += off > 0
            hidden += found.count(UNTOLD)
    return Counted(cells, pairs, hidden)


def largest_leap(scene: Scene, hand: Hand, preset: int) -> int | None:
    """The largest difference between what is held and what the pedal's place would send.

    None when no history but power-up leaves a number. `entered` walks only some places, so stairs
    must change at none but those that `scenes.hand` makes.
    """
    worst = None
    for state in entered(scene, hand.column)[preset]:
        if 0 <= state.code < 128 and state.writer != "power-up":
            leap = abs(state.code - hand.stairs[place_of(state, hand)])
            worst = leap if worst is None else max(worst, leap)
    return worst
