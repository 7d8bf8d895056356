import pytest

from thruline.base.errors import CannotUse
from thruline.workbench.devices import link_page, svg_code
from thruline.workbench.guard import Doors


def test_a_link_lets_one_device_in():
    doors = Doors()
    told = link_page("http://192.0.2.7:80", doors)
    assert doors.enter(told["link"].rpartition("/")[2])
    assert told["code"].startswith("<svg")
    assert "style=" not in told["code"]


def test_every_link_is_another():
    doors = Doors()
    assert link_page("http://a", doors)["link"] != link_page("http://a", doors)["link"]
    assert svg_code("http://a/1") != svg_code("http://a/2")


def test_without_sharing_there_is_no_link():
    with pytest.raises(CannotUse, match="--share"):
        link_page("", Doors())
