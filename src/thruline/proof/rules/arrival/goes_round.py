"""A ring: messages that come back to where they were and go round again."""

from collections.abc import Iterator

from thruline.base.edit import remove, set_to
from thruline.path.rings import Ring
from thruline.path.words import hops_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import facts, way
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.chart import Governs, Way
from thruline.rig.unit import meaning, setting_for


def _look(case: Case) -> Iterator[Result]:
    for ring in case.network.rings:
        if not ring.circulates:
            continue
        names = " > ".join(case.rig.units[hop.link.start.unit].name for hop in ring.hops)
        kinds = ", ".join(sorted(kind.value for kind in ring.circulates))
        yield RULE.finding(
            f"messages go round without end: {names} and back again",
            *(cable.address for hop in ring.hops for cable in hop.link.cables),
            evidence=[
                way(("ring", hops_in_words(case.rig.units, ring.hops))),
                facts(("what goes round", kinds)),
            ],
            mends=_mends(case, ring),
            severity=Severity.FAULT if ring.certain else Severity.RISK,
        )


def _mends(case: Case, ring: Ring) -> Iterator[Mend]:
    """Stop one output from passing on; else take out the cable that closes the ring."""
    for hop in reversed(ring.hops):
        unit = case.rig.units[hop.link.start.unit]
        setting = setting_for(unit, Governs.OUTPUT, hop.link.start.socket)
        quiet = (Way.OWN.value, Way.OFF.value)
        for value in setting.values if setting else ():
            if (
                setting
                and setting.means.get(value, value) in quiet
                and meaning(unit, setting) not in quiet
            ):
                where = unit.address.child("settings").child(setting.id)
                yield Mend(
                    f'Set {unit.name} > {setting.name} to "{value}"', (set_to(where, value),)
                )
                break
    last = ring.hops[-1].link.cables[-1]
    yield Mend(f"Take out the cable {last.name}", (remove(last.address),))


_RING = (
    a_unit("merge", "kidd-merge"),
    a_unit("pre", "egremont-preamp", "channel = 2", 'settings = { midi-out = "thru" }'),
    a_cable("feet.midi-out-1", "merge.in-1"),
    a_cable("merge.output", "pre.midi-in"),
)

RULE = Rule(
    id=rule_id(__name__),
    title="Messages that go round",
    severity=Severity.FAULT,
    why=(
        "A merge feeds a line whose end is fed back into the merge. One press starts a flood that "
        "does not stop: units freeze, and pulling any cable of the ring ends it."
    ),
    failing=board(*_RING, a_cable("pre.midi-out", "merge.in-2")),
    passing=board(*_RING),
    look_board=_look,
)
