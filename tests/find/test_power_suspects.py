from tests.find.boards import meant
from thruline.find.kinds import Kind
from thruline.find.power_suspects import TIGHT, power_suspects

FOUND = tuple(power_suspects(meant()))


def test_what_can_be_wrong_with_a_lead_from_the_supply():
    mine = {one.kind for one in FOUND if one.on == "box-1"}
    assert mine >= {Kind.NO_POWER, Kind.POWER_REVERSED, Kind.POWER_VOLTAGE, Kind.POWER_SAGS}
    assert Kind.POWER_AC_DC not in mine


def test_of_a_unit_without_a_planned_lead_only_that_it_may_be_dark():
    assert {one.kind for one in FOUND if one.on == "box-3"} == {Kind.NO_POWER}


def test_the_supply_itself_is_no_unit_of_the_line():
    assert not any(one.on == "supply" for one in FOUND)


def test_a_tight_outlet_sags_more_often():
    assert {one.odds for one in FOUND if one.kind is Kind.POWER_SAGS} == {TIGHT}
