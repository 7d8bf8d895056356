from dataclasses import replace

import pytest

from thruline.find.search import Did, Search, Step, Verdict
from thruline.workshop.searches import KeptSearch, experience_from, goes_on_from

STEPS = (Step(Did.ANSWERED, "look echo 1", "nothing"), Step(Did.MENDED, "give-power@echo"))
KEPT = KeptSearch(
    rig="/one",
    verdict=Verdict.WORKS,
    search=Search(steps=STEPS),
    seconds=9,
    told=("1. looked",),
    culprits={"no-power@echo": 0.9},
    expected={"no-power": 0.2, "frozen": 0.1},
    number=3,
)


def test_a_longer_search_goes_on_from_a_kept_one():
    longer = Search(steps=(*STEPS, Step(Did.ANSWERED, "glance 1", "")))
    assert goes_on_from([KEPT], "/one", longer) == 3
    assert goes_on_from([KEPT], "/one", KEPT.search) == 3
    assert goes_on_from([KEPT], "/two", longer) == 0
    assert goes_on_from([KEPT], "/one", Search(steps=longer.steps[1:])) == 0
    assert goes_on_from([KEPT], "/one", KEPT.search.taken_back()) == 0


def test_kinds_count_everywhere_and_things_on_their_rig():
    here, there = (experience_from([KEPT, KEPT], rig) for rig in ("/one", "/two"))
    assert here.seen == pytest.approx({"no-power": 1.8, "no-power@echo": 1.8})
    assert there.seen == pytest.approx({"no-power": 1.8})
    assert here.expected == pytest.approx({"no-power": 0.36, "frozen": 0.18})


@pytest.mark.parametrize("verdict", [one for one in Verdict if one is not Verdict.WORKS])
def test_only_what_ended_well_counts(verdict):
    found = experience_from([replace(KEPT, verdict=verdict)], "/one")
    assert not found.seen
    assert not found.expected
