"""Links over which nothing gets through, as findings."""

from collections.abc import Collection, Iterator
from dataclasses import replace

from thruline.base.address import Address
from thruline.base.edit import set_to
from thruline.path.contacts import LinkState
from thruline.path.links import Link, read_links
from thruline.path.words import jack_in_words, link_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import Evidence, way
from thruline.proof.finding import Mend, Result
from thruline.proof.rule import Rule
from thruline.rig.cable import Cable, is_adapted, joined
from thruline.rig.whole import Rig


def links_in(case: Case, states: Collection[LinkState]) -> Iterator[Link]:
    """Links in one of these states."""
    return (link for link in case.network.links if link.state in states)


def link_findings(
    case: Case, rule: Rule, states: Collection[LinkState], *, says: str
) -> Iterator[Result]:
    """One finding for each such link. `says` is the end of the sentence about it.

    Of a cable that carries both ways the first direction is told.
    """
    told: set[tuple[Address, ...]] = set()
    for link in links_in(case, states):
        where = tuple(cable.address for cable in link.cables)
        if where in told or where[::-1] in told:
            continue
        told.add(where)
        start, stop = (jack_in_words(case.rig.units, jack) for jack in (link.start, link.stop))
        yield rule.finding(
            f"nothing gets from {start} to {stop}: {says}",
            *where,
            evidence=[contacts(case, link)],
            mends=other_wirings(case.rig, link),
        )


def contacts(case: Case, link: Link) -> Evidence:
    """The link, and which contact meets which."""
    return way(("link", link_in_words(case.rig.units, link)), ("contacts", link.why))


def other_wirings(rig: Rig, link: Link) -> Iterator[Mend]:
    """The last cable wired another way, where the link then works."""
    cable = link.cables[-1]
    types = ("type-a", "type-b")
    for wiring in types if is_adapted(cable.plugs) else ("straight", "crossed"):
        joins = joined(cable.plugs, wiring)
        if joins is None or joins == cable.joins:
            continue
        if _works(rig, link, replace(cable, joins=joins, wiring=wiring)):
            says = f'Make the cable {cable.name} with the wiring "{wiring}"'
            yield Mend(says, (set_to(cable.address.child("wiring"), wiring),))
            return


def _works(rig: Rig, link: Link, last: Cable) -> bool:
    """Whether the link carries with another last cable, nothing else being plugged in."""
    alone = read_links(replace(rig, cables=(*link.cables[:-1], last)))
    return any(one.carries for one in alone if (one.start, one.stop) == (link.start, link.stop))
