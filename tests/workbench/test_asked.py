import json
from urllib.parse import unquote

import pytest

from thruline.app.clash import Clash, Clashing
from thruline.base.errors import CannotUse, WorldFailed
from thruline.base.spot import Spot
from thruline.document.problems import BadDocument, Problem
from thruline.workbench.asked import TooLarge, attachment, refusal, unheard, wanted


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


def test_a_document_that_cannot_be_is_told_without_its_rows_and_with_its_problems_as_data():
    problem = Problem(spot=Spot("rigs/of/anna/a.rig.toml", 6, 11), says="17 is too high")
    told = json.loads(refusal(BadDocument([problem])).body)
    assert told["says"] == "17 is too high"
    assert told["problems"][0]["row"] == 6


def test_a_file_of_any_name_is_taken_away():
    (words,) = attachment('Bühne "Ω"\r\nset-cookie: a.pdf').values()
    assert words.isascii()
    assert words.isprintable()
    assert '"' not in words
    assert unquote(words.partition("UTF-8''")[2]) == 'Bühne "Ω"\r\nset-cookie: a.pdf'


@pytest.mark.parametrize("value", [2**53, -(2**53), 10**40])
def test_a_number_that_no_store_holds_is_refused(value):
    assert wanted({"seen": 2**53 - 1}, "seen", int) == 2**53 - 1
    with pytest.raises(CannotUse, match="at most"):
        wanted({"seen": value}, "seen", int)


def test_nothing_is_answered_where_nobody_waits():
    told = unheard()
    assert (told.status_code, told.body) == (204, b"")
