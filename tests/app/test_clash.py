import pytest

from thruline.app.clash import Clash, Clashing, clashes_of, shown
from thruline.base.address import read_address
from thruline.base.edit import add_to, remove, set_to

SEEN = {"unit": [{"id": "delay", "channel": 3}], "preset": [{"number": 1, "name": "Clean"}]}
NOW = {"unit": [{"id": "delay", "channel": 4}], "preset": [{"number": 1, "name": "Clean"}]}
CHANNEL = read_address("unit[delay].channel")


def test_a_place_that_nobody_touched_does_not_clash():
    assert clashes_of(SEEN, NOW, [set_to(read_address("preset[1].name"), "Lead")]) == ()


def test_a_place_that_was_changed_meanwhile_clashes():
    assert clashes_of(SEEN, NOW, [set_to(CHANNEL, 5)]) == (
        Clash(address="unit[delay].channel", seen=3, now=4, wanted=5),
    )


def test_wanting_what_is_there_already_does_not_clash():
    assert clashes_of(SEEN, NOW, [set_to(CHANNEL, 4)]) == ()


def test_removing_what_was_changed_clashes_and_what_has_gone_does_not():
    assert clashes_of(SEEN, NOW, [remove(CHANNEL)])[0].wanted is None
    assert clashes_of(SEEN, {"unit": [{"id": "delay"}]}, [remove(CHANNEL)]) == ()


def test_setting_in_what_was_removed_clashes():
    assert clashes_of(SEEN, {"unit": []}, [set_to(CHANNEL, 5)])[0].now is None


def test_adding_never_clashes():
    assert clashes_of(SEEN, NOW, [add_to(read_address("unit"), {"id": "x"})]) == ()


def test_it_is_said_what_is_there_and_what_was_seen():
    told = Clashing(clashes_of(SEEN, NOW, [set_to(CHANNEL, 5)])).says
    assert "unit[delay].channel was changed meanwhile, to 4; you saw 3 and want 5" in told


@pytest.mark.parametrize(
    ("value", "says"),
    [(None, "nothing"), ("a", '"a"'), (3, "3"), ({"mix": "50%", "time": 4}, 'mix "50%", time 4')],
)
def test_values_in_a_sentence(value, says):
    assert shown(value) == says
