import pytest

from tests.app.keeping import keeping
from thruline.app.desk import open_desk
from thruline.base.errors import CannotUse
from thruline.workbench.deeds import deed


def test_a_search_is_begun_answered_moved_and_put_away():
    kept = keeping()
    desk = open_desk(kept)
    deed("find-begin", {"place": "bench", "symptoms": [], "from_proof": True})(desk, kept)
    assert kept.search.data == {"place": "bench", "steps": [], "from_proof": True}
    deed("find-answer", {"answer": "not sure", "steps": 0})(desk, kept)
    assert [one["did"] for one in kept.search.data["steps"]] == ["not-sure"]
    deed("find-place", {"place": "stage"})(desk, kept)
    assert kept.search.data["place"] == "stage"
    deed("find-without", {"step": 0, "steps": 1})(desk, kept)
    assert kept.search.data["steps"] == []
    deed("find-end", {})(desk, kept)
    assert kept.search.data is None


@pytest.mark.parametrize(
    ("name", "asked"),
    [
        ("find-begin", {"place": "moon", "symptoms": [], "from_proof": False}),
        ("find-begin", {"place": "bench", "symptoms": "hum", "from_proof": False}),
        ("find-answer", {"answer": "not sure"}),
        ("find-symptom", {"steps": 0}),
        ("find-without", {"step": True, "steps": 0}),
    ],
)
def test_what_makes_no_sense_is_refused(name, asked):
    with pytest.raises(CannotUse, match=r"wanted|no place"):
        deed(name, asked)
