"""A line with running status into a unit that does not understand it."""

from collections.abc import Iterator

from thruline.path.links import Link
from thruline.path.makers import leaves_status_out, maker_of
from thruline.path.network import Network
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.rig.unit import Unit


def _look(case: Case) -> Iterator[Result]:
    for unit in case.rig.units.values():
        if unit.chart.receives.running_status or not unit.chart.listens:
            continue
        makers = (maker_of(case.network, link) for link in _links_to(case.network, unit))
        leaving_out = {one.unit.id: one.unit for one in makers if one and leaves_status_out(one)}
        for maker in leaving_out.values():
            yield RULE.finding(
                f"{maker.name} leaves out repeated status bytes, and {unit.name} does not "
                "understand that",
                unit.address,
                maker.address,
                evidence=[
                    facts(
                        (maker.name, "uses running status"),
                        (unit.name, "needs every status byte"),
                        ("what helps", "a soft thru that sends every status, in between"),
                    )
                ],
            )


def _links_to(network: Network, unit: Unit) -> Iterator[Link]:
    """The links over which something may reach a unit."""
    for jack in network.inputs_of(unit.id):
        yield from (link for link in network.inputs[jack] if link.carries is not False)


_LIGHTS = a_unit("lights", "discovery-lights", "channel = 16", 'settings = { omni = "One" }')


def _rig(controller: str, output: str) -> Example:
    plug = "trs-3.5/din5" if controller == "quarrenden-three" else "din5/din5"
    rows = ('wiring = "type-a"',) if controller == "quarrenden-three" else ()
    lead = a_cable(f"feet.{output}", "lights.midi-in", *rows, ends=plug)
    return board(_LIGHTS, lead, controller=controller)


RULE = Rule(
    id=rule_id(__name__),
    title="Running status not understood",
    severity=Severity.FAULT,
    why=(
        "When several messages of one kind follow each other, a sender may leave out the repeated "
        "status byte. A unit that cannot read that takes the first message and drops the rest."
    ),
    failing=_rig("quarrenden-three", "midi-out"),
    passing=_rig("braeburn-six", "midi-out-1"),
    look_board=_look,
)
