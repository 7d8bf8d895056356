"""Links over which nothing gets through."""

from tests.proof.boards import case_of
from thruline.path.contacts import LinkState
from thruline.path.links import Link
from thruline.proof.bad_links import contacts, link_findings, links_in, other_wirings
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, REVERB, TO_DELAY, a_cable, a_unit, board
from thruline.proof.rulebook import rule_called

TYPE_B = a_cable("delay.midi-thru", "reverb.midi-in", 'wiring = "type-b"', ends="din5/trs-3.5")
RIG = board(DELAY, REVERB, TO_DELAY, TYPE_B)


def test_links_by_their_state() -> None:
    case = case_of(RIG)
    assert [link.stop.unit for link in links_in(case, {LinkState.REVERSED})] == ["reverb"]
    assert [link.stop.unit for link in links_in(case, {LinkState.WORKS})] == ["delay"]


def test_a_finding_names_both_sockets_and_the_contacts() -> None:
    case = case_of(RIG)
    rule = rule_called("arrival.contacts-reversed")
    (found,) = link_findings(case, rule, {LinkState.REVERSED}, says="swapped")
    assert found.says == "nothing gets from delay MIDI THRU to reverb MIDI IN: swapped"
    assert dict(found.evidence[0].rows)["contacts"] == contacts(case, _link(case)).rows[1][1]


def test_only_a_wiring_that_works_is_offered() -> None:
    case = case_of(RIG)
    says = [mend.says for mend in other_wirings(case.rig, _link(case))]
    assert says == ['Make the cable delay.midi-thru>reverb.midi-in with the wiring "type-a"']


def test_no_wiring_makes_a_current_out_of_a_voltage() -> None:
    lead = a_cable("host.aux-out", "delay.midi-in", ends="trs-3.5/din5")
    case = case_of(board(a_unit("host", "suntan-host"), DELAY, lead))
    (link,) = case.network.links
    assert link.state is not LinkState.WORKS
    assert list(other_wirings(case.rig, link)) == []


def _link(case: Case) -> Link:
    (link,) = links_in(case, {LinkState.REVERSED})
    return link
