from itertools import pairwise

import pytest

from tests.opening import open_text
from tests.samples.reading import AS_FOUND, ORCHARD
from thruline.app.mend import state_of
from thruline.app.mending import mending, uncovers


@pytest.fixture(scope="module")
def steps():
    found = state_of(open_text(AS_FOUND.read_text(encoding="utf-8")))
    return [(found, None), *((step.after, step) for step in mending(found))]


def test_the_board_as_found_is_mended_to_a_clean_proof(steps):
    last, _ = steps[-1]
    assert steps[0][0].proof.findings
    assert not last.proof.findings
    assert not last.proof.untold


def test_safe_mends_come_first(steps):
    safe = [step.done.mend.is_safe for _, step in steps[1:]]
    assert safe == sorted(safe, reverse=True)
    assert any(safe)
    assert not all(safe)


def test_every_step_removes_its_finding_and_adds_no_fault(steps):
    for (before, _), (after, step) in pairwise(steps):
        ids = {finding.id for finding in after.proof.findings}
        assert step.done.finding.id not in ids
        faults = [sum(f.severity == "fault" for f in one.proof.findings) for one in (before, after)]
        assert faults[1] <= faults[0]


def test_what_was_hidden_comes_to_light_and_is_mended_too(steps):
    brought = [finding for _, step in steps[1:] for finding in uncovers(step)]
    assert any("channel 7" in finding.says for finding in brought)


def test_nothing_to_mend_is_no_step():
    clean = state_of(open_text(ORCHARD.read_text(encoding="utf-8")))
    assert list(mending(clean)) == []
