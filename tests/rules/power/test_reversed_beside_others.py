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
    """Reversed leads that are not alone on an isolated outlet, and units fed though not told."""
    leads = list(power_leads(rig))
    shorts = {
        (lead.unit.id, lead.cable.start)
        for lead in leads
        if lead.reversed_ and not may_be_reversed(lead.outlet, on_one_return(lead, leads))
    }
    guessed = {
        (lead.unit.id, lead.cable.start)
        for lead in leads
        if lead.need.polarity is None or lead.need.milliamps is None
    }
    return shorts, guessed


@settings(max_examples=150, deadline=None)
@given(boards())
def test_no_mend_of_power_shorts_a_supply_or_guesses_what_a_unit_wants(example):
    before = state(example)
    shorts, guessed = _dangers(before.opened.rig)
    for finding in before.proof.findings:
        if finding.rule.startswith("power."):
            for mend in finding.mends:
                after = _dangers(mended(example, mend).opened.rig)
                assert after[0] <= shorts, mend.says
                assert after[1] <= guessed, mend.says
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


def test_two_reversing_leads_do_not_short_each_other():
    units = (a_unit("supply", "idared-supply"), *SHARED[1:3])
    both = (
        a_power_lead("supply.outlet-1", "drive.power-in", 'wiring = "crossed"'),
        _to_bass('wiring = "crossed"'),
    )
    assert found(reversed_beside_others.RULE, board(*units, *both)) == []
