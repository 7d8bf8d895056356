"""Over which output each unit is addressed."""

from tests.opening import open_text
from tests.routed import case_of_two_lines
from thruline.path.hearing import Heard
from thruline.path.routing import EVERYWHERE, chooses
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_unit, board


def routing_of(*pieces, controller="pearmain-ten"):
    return Case(open_text(board(*pieces, controller=controller).rig).rig).board.routing


def test_a_unit_is_addressed_over_the_output_that_leads_to_it():
    routing = case_of_two_lines().board.routing
    assert routing.chooses
    assert dict(routing.over) == {"delay": "midi-out-1", "echo": "midi-out-2"}
    assert not routing.open_to


def test_a_controller_whose_outputs_are_alike_chooses_none():
    case = case_of_two_lines(controller="braeburn-six")
    assert case.board.routing == EVERYWHERE
    assert not chooses(case.rig.controller)


def test_what_the_document_gives_goes_before_what_leads_there():
    said = a_unit("delay", "bramley-delay", "channel = 3", 'sent-over = "midi-out-2"')
    assert routing_of(said, TO_DELAY).over["delay"] == "midi-out-2"


def test_an_output_that_the_controller_does_not_have_counts_as_not_given():
    said = a_unit("delay", "bramley-delay", "channel = 3", 'sent-over = "midi-out-9"')
    assert routing_of(said, TO_DELAY).over["delay"] == "midi-out-1"


def test_where_two_outputs_lead_to_a_unit_the_choice_is_open():
    routing = routing_of(
        a_unit("merge", "kidd-merge"),
        DELAY,
        a_cable("feet.midi-out-1", "merge.in-1"),
        a_cable("feet.midi-out-2", "merge.in-2"),
        a_cable("merge.output", "delay.midi-in"),
    )
    assert routing.open_to["delay"] == ("midi-out-1", "midi-out-2")
    assert routing.over["delay"] == "midi-out-1"


def test_a_unit_that_nothing_leads_to_is_addressed_over_the_first():
    assert routing_of(DELAY).over["delay"] == "midi-out-1"


def test_only_routes_of_the_chosen_output_take_the_messages():
    case = case_of_two_lines()
    routing, hearing = case.board.routing, case.hearing
    (route,) = hearing.routes_between("feet", "delay")
    assert routing.takes("delay", route)
    assert not routing.takes("echo", route)
    assert hearing.hears("feet", "delay", over="midi-out-1") is Heard.YES
    assert hearing.hears("feet", "delay", over="midi-out-2") is Heard.NO
