"""What must hold of the proof of any rig at all, however odd."""

import json
from collections import Counter
from collections.abc import Iterable
from itertools import islice

from thruline.app.answer import proof_json
from thruline.app.load import Opened, open_again, open_rig
from thruline.app.mend import State, offers, state_of
from thruline.app.trace import trace
from thruline.app.trace_answer import trace_json
from thruline.outside.shelves import sample_shelf
from thruline.papers.timing_svg import timing_svg
from thruline.proof.case import Case
from thruline.proof.engine import Proof, prove
from thruline.proof.rulebook import rulebook

LONGEST = 400
"""Letters in a sentence of a finding: some name four units and as many presets."""


class BrokenPromise(AssertionError):
    """Something that must hold of every proof does not hold of this one."""


def opened(text: str) -> Opened:
    """A rig of sample charts, opened from its text."""
    return open_rig(text, file="odd.rig.toml", shelves=(sample_shelf(),))


def check_proof(state: State) -> None:
    """Ids are unique, sentences are sentences, places can be found, and JSON can be made."""
    proof = state.proof
    _check_once(
        "findings", (one.id for one in (*proof.findings, *(one for one, _ in proof.accepted)))
    )
    _check_once("cannot be told", (f"{one.id} ({one.lacks})" for one in proof.untold))
    for one in (*proof.findings, *proof.untold):
        if "None" in one.says or one.says.endswith(".") or not 0 < len(one.says) <= LONGEST:
            raise BrokenPromise(f"no sentence for people: {one.says!r} [{one.rule}]")
        for place in one.where:
            state.opened.document.spot_of(place)
    json.dumps(proof_json(state.opened, proof))


def _check_once(what: str, ids: Iterable[str]) -> None:
    twice = [one for one, count in Counter(ids).items() if count > 1]
    if twice:
        raise BrokenPromise(f"{what} share an id: {twice}")


def check_mends(state: State, *, most: int) -> int:
    """Every mend that is offered can be made, whatever it does. How many were tried."""
    tried = 0
    for one in islice(offers(state), most):
        tried += 1
        if one.effect is None:
            raise BrokenPromise(
                f"cannot be made: {one.mend.says!r} [{one.finding.id}]: {one.trouble}"
            )
    return tried


def check_traces(state: State) -> int:
    """Every preset can be followed, drawn and told. How many were."""
    rig = state.opened.rig
    numbers = {preset.number for preset in rig.presets} if rig.controller else set()
    for number in numbers:
        found = trace(state.case, number)
        timing_svg(found.picture)
        json.dumps(trace_json(found))
    return len(numbers)


def check_edit(state: State, text: str) -> State:
    """The proof of the same rig with another text, going on from the last, is a fresh proof."""
    after = state_of(open_again(state.opened, text), state.case)
    check_same(after.proof, prove(Case(after.opened.rig), rulebook()))
    return after


def check_same(one: Proof, fresh: Proof) -> None:
    """Two proofs agree in every word."""
    if one == fresh:
        return
    for part in ("findings", "untold", "accepted", "proved"):
        mine, theirs = getattr(one, part), getattr(fresh, part)
        if mine != theirs:
            raise BrokenPromise(f"{part} differ from a fresh proof:\n{mine}\n{theirs}")
