"""Leads that swap plus and minus: where they short a supply, and that no mend brings one there."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rules.looking import found, mended, state
from thruline.proof.example_boards import a_cable, a_power_lead, a_unit, board
from thruline.proof.power_leads import may_be_reversed, on_one_return, power_leads
from thruline.proof.rules.power import reversed_beside_others, wrong_polarity

SUPPLY = """format = 1
[chart]
id = "medlar-supply"
maker = "Medlar"
model = "Two"
kind = "supply"
"""
OUTLET = """
[[socket]]
id = "{name}"
kind = "power-out"
connector = "barrel-2.1"
[[outlet]]
socket = "{name}"
millivolts = 9000
milliamps = 500
isolated = {isolated}
{polarity}"""
EATER = """format = 1
[chart]
id = "{name}"
maker = "Medlar"
model = "{name}"
kind = "drive"
[[socket]]
id = "power-in"
kind = "power-in"
connector = "barrel-2.1"
[power]
millivolts = 9000
{milliamps}
{polarity}
"""
POLARITY = st.sampled_from(["centre-negative", "centre-positive", None])
OUTLETS = ("a", "b", "c")
UNITS = ("one", "two")


def _polarity(word):
    return "" if word is None else f'polarity = "{word}"\n'


@st.composite
def boards(draw):
    """A supply of three outlets and two units that want what they want, or do not say."""
    outlets = [
        OUTLET.format(
            name=name,
            isolated=str(draw(st.booleans())).lower(),
            polarity=_polarity(draw(POLARITY)),
        )
        for name in OUTLETS
    ]
    eaters = [
        EATER.format(
            name=name,
            milliamps=draw(st.sampled_from(["milliamps = 100", "milliamps = 100", ""])),
            polarity=_polarity(draw(POLARITY)),
        )
        for name in UNITS
    ]
    leads = [
        a_cable(
            f"supply.{draw(st.sampled_from(OUTLETS))}",
            f"{name}.power-in",
            draw(st.sampled_from(["", 'wiring = "crossed"'])),
            ends="barrel-2.1/barrel-2.1",
        )
        for name in UNITS
        if draw(st.integers(0, 4))
    ]
    units = [a_unit("supply", "medlar-supply"), *(a_unit(one, one) for one in UNITS)]
    return board(*units, *leads, charts=(SUPPLY + "".join(outlets), *eaters))


def _dangers(rig):
    """Pairs of leads on one return that swap or not, swapped ones where that may not be, and units
    fed though nobody says what they want.
    """
    leads = list(power_leads(rig))
    shorts = {
        (one.unit.id, other.unit.id)
        for one in leads
        for other in on_one_return(one, leads)
        if one.reversed_ != other.reversed_
    }
    alone = {
        lead.unit.id
        for lead in leads
        if lead.reversed_ and not may_be_reversed(lead.outlet, on_one_return(lead, leads))
    }
    guessed = {
        (lead.unit.id, lead.cable.start)
        for lead in leads
        if lead.need.polarity is None or lead.need.milliamps is None
    }
    harmed = {lead.unit.id for lead in leads if lead.outlet.millivolts > lead.need.most_millivolts}
    return shorts, alone, guessed, harmed


@settings(max_examples=200, deadline=None)
@given(boards())
def test_no_mend_of_power_shorts_a_supply_or_guesses_what_a_unit_wants(example):
    before = state(example)
    dangers = _dangers(before.opened.rig)
    for finding in before.proof.findings:
        if finding.rule.startswith("power."):
            for mend in finding.mends:
                after = _dangers(mended(example, mend).opened.rig)
                for before_it, after_it in zip(dangers, after, strict=True):
                    assert after_it <= before_it, mend.says
                assert any("measure" in value for one in finding.evidence for _, value in one.rows)


SHARED = (
    a_unit("supply", "idared-supply"),
    a_unit("bass", "worcester-bass", "channel = 5"),
    a_unit("drive", "russet-drive"),
    a_power_lead("supply.outlet-1", "drive.power-in"),
)


def _to_bass(*wiring, outlet="supply.outlet-2"):
    return a_cable(outlet, "bass.power-in", *wiring, ends="barrel-2.1/barrel-2.5")


def test_a_shared_return_gets_no_reversing_lead():
    (finding,) = found(wrong_polarity.RULE, board(*SHARED, _to_bass()))
    assert [one.says for one in finding.mends] == []


def test_a_reversing_lead_on_a_shared_return_is_a_fault():
    example = board(*SHARED, _to_bass('wiring = "crossed"'))
    (finding,) = found(reversed_beside_others.RULE, example)
    assert "swaps plus and minus, and shares its return with Russet Drive" in finding.says
    assert finding.harms


def test_a_straight_and_a_reversing_lead_on_one_outlet_are_a_fault():
    units = (a_unit("supply", "elstar-supply"), *SHARED[1:3])
    both = (
        a_power_lead("supply.outlet-11", "drive.power-in"),
        _to_bass('wiring = "crossed"', outlet="supply.outlet-11"),
    )
    (finding,) = found(reversed_beside_others.RULE, board(*units, *both))
    assert "on the same return" in [name for one in finding.evidence for name, _ in one.rows]


def test_alone_on_an_isolated_outlet_a_reversing_lead_is_the_mend():
    example = board(
        a_unit("supply", "elstar-supply"), SHARED[1], _to_bass(outlet="supply.outlet-11")
    )
    (finding,) = found(wrong_polarity.RULE, example)
    says = "Use a polarity-reversing lead from Elstar Twelve outlet-11 to Worcester Bass Synth"
    assert finding.mends[0].says == says
    assert not [one for one in mended(example, finding.mends[0]).proof.findings if one.harms]


def test_a_reversing_lead_alone_on_an_outlet_that_is_not_isolated_is_a_fault():
    units = (a_unit("supply", "idared-supply"), SHARED[1])
    (finding,) = found(reversed_beside_others.RULE, board(*units, _to_bass('wiring = "crossed"')))
    assert "is not isolated" in finding.says


def test_nothing_is_fed_beside_a_reversing_lead():
    units = (a_unit("supply", "idared-supply"), *SHARED[1:3])
    example = board(*units, _to_bass('wiring = "crossed"'))
    (finding,) = [one for one in state(example).proof.findings if "Russet" in one.says]
    assert finding.mends == ()


def test_a_switch_is_not_turned_past_what_a_second_unit_bears():
    twelve, nine = (
        EATER.format(name=name, milliamps="milliamps = 50", polarity=_polarity("centre-negative"))
        for name in UNITS
    )
    twelve = twelve.replace("millivolts = 9000", "millivolts = 12000")
    leads = [a_power_lead("supply.outlet-1", f"{name}.power-in") for name in UNITS]
    units = [a_unit("supply", "blenheim-supply"), *(a_unit(one, one) for one in UNITS)]
    findings = state(board(*units, *leads, charts=(twelve, nine))).proof.findings
    wrong = [one for one in findings if one.rule == "power.wrong-voltage"]
    assert wrong
    assert not [mend for one in wrong for mend in one.mends if mend.says.startswith("Turn")]
    alone = state(board(*units, leads[0], charts=(twelve, nine))).proof.findings
    says = [mend.says for one in alone for mend in one.mends]
    assert any(one.startswith("Turn Volts 1") for one in says)
