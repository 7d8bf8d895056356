import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.opening import TextShelf
from tests.samples.reading import FIRST_BOARD, charts
from thruline.app.bare_rig import begun, controllers, file_for
from thruline.app.load import open_rig
from thruline.app.prove import prove_rig
from thruline.base.errors import CannotUse
from thruline.outside.shelves import sample_shelf
from thruline.proof.finding import Severity

SHELVES = (TextShelf(()), sample_shelf())
CONTROLLERS = sorted(one.id for one in charts().values() if one.abilities is not None)


def test_every_controller_is_offered():
    assert [one["id"] for one in controllers(SHELVES)] == CONTROLLERS


@pytest.mark.parametrize("controller", CONTROLLERS)
def test_a_bare_rig_has_its_controller_and_no_fault(controller):
    text = begun('A "quoted" board', controller, shelves=SHELVES)
    opened = open_rig(text, file="x.rig.toml", shelves=SHELVES)
    assert opened.rig.name == 'A "quoted" board'
    assert [unit.chart.id for unit in opened.rig.units.values()] == [controller]
    assert prove_rig(opened)[1].count(Severity.FAULT) == 0


def test_a_sample_is_begun_under_the_name():
    sample = FIRST_BOARD.read_text(encoding="utf-8")
    text = begun("Mine", CONTROLLERS[0], shelves=SHELVES, sample=sample)
    assert 'name = "Mine"' in text
    assert len(open_rig(text, file="x.rig.toml", shelves=SHELVES).rig.units) > 1


@pytest.mark.parametrize("name", ["", "  ", "x" * 81])
def test_names_that_no_rig_can_have(name):
    with pytest.raises(CannotUse, match="cannot be the name of a rig"):
        begun(name, CONTROLLERS[0], shelves=SHELVES)


@given(st.text(max_size=200))
def test_a_file_has_a_name_that_leads_nowhere_else(name):
    file = file_for(name)
    assert file.endswith(".rig.toml")
    stem = file.removesuffix(".rig.toml")
    assert stem
    assert len(stem) <= 60
    assert set(stem) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")
