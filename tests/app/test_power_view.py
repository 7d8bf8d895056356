"""The power layer: both ends of every lead in words, and who has none."""

from tests.opening import open_text
from thruline.app.power_view import feeds_json, most_drawn
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.proof.example_boards import DELAY, a_power_lead, a_unit, board
from thruline.proof.power_leads import leads_by_outlet, power_leads

SUPPLY = a_unit("supply", "elstar-supply")


def feeds(*pieces):
    return feeds_json(open_text(board(*pieces).rig).rig)


def test_a_lead_is_told_at_both_ends():
    told = feeds(SUPPLY, DELAY, a_power_lead("supply.outlet-1", "delay.power-in"))
    (lead,) = told["leads"]
    assert (lead["unit"], lead["outlet"]) == ("delay", "Elstar Twelve outlet-1")
    for words in (lead["gives"], lead["wants"]):
        assert words.startswith("9 V DC centre negative, ")
        assert " mA" in words
    assert lead["label"][:2] == ["outlet-1", "9 V centre \N{MINUS SIGN}"]
    assert lead["label"][2].endswith(" mA")
    assert lead["used"].endswith(" %")
    assert lead["shares"] == []
    assert [one["unit"] for one in told["unfed"]] == ["feet"]


def test_units_on_one_outlet_are_added_up():
    told = feeds(
        SUPPLY,
        DELAY,
        a_unit("next", "bramley-delay", "channel = 4"),
        a_power_lead("supply.outlet-1", "delay.power-in"),
        a_power_lead("supply.outlet-1", "next.power-in"),
    )
    first, second = told["leads"]
    assert first["shares"] == second["shares"] == ["Bramley Delay"]
    alone = feeds(SUPPLY, DELAY, a_power_lead("supply.outlet-1", "delay.power-in"))["leads"][0]
    both, one = (int(each["used"].removesuffix(" %")) for each in (first, alone))
    assert 2 * one - 1 <= both <= 2 * one


def test_every_lead_of_a_whole_board_is_there_once():
    rig = open_text(sample_text(ORCHARD_STREET)).rig
    told = feeds_json(rig)
    addresses = [one["address"] for one in told["leads"]]
    assert len(addresses) == len(set(addresses))
    assert {str(one.cable.address) for one in power_leads(rig)} <= set(addresses)
    assert all(most_drawn(leads) is not None for leads in leads_by_outlet(rig).values())
