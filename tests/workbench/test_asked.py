import json

import pytest

from thruline.app.clash import Clash, Clashing
from thruline.base.errors import CannotUse, WorldFailed
from thruline.workbench.asked import TooLarge, refusal, wanted


def test_a_value_is_of_the_kind_that_is_wanted():
    assert wanted({"seen": 3}, "seen", int) == 3
    for asked in ({}, {"seen": True}, {"seen": "3"}, {"seen": None}):
        with pytest.raises(CannotUse, match='"seen" is wanted'):
            wanted(asked, "seen", int)


@pytest.mark.parametrize(
    ("trouble", "status"),
    [
        (CannotUse("no"), 422),
        (TooLarge("no"), 413),
        (WorldFailed("no"), 503),
        (Clashing([Clash(address="rig.name", seen=1, now=2, wanted=3)]), 409),
    ],
)
def test_trouble_has_its_status(trouble, status):
    answer = refusal(trouble)
    assert answer.status_code == status
    assert json.loads(answer.body)["says"] == trouble.says
