import pytest

from tests.opening import open_text
from tests.samples.reading import AS_FOUND
from thruline.app.mend import state_of
from thruline.app.mending import mending
from thruline.cli.step_text import found_rows, short_diff, step_rows

DIFF = "--- a\n+++ a\n@@ -1 +1 @@\n same\n-old\n+new\n-\n+\n"


@pytest.fixture(scope="module")
def found():
    return state_of(open_text(AS_FOUND.read_text(encoding="utf-8")))


def test_only_changed_rows_are_shown():
    assert short_diff(DIFF) == ["-old", "+new"]


def test_long_changes_are_counted():
    rows = short_diff("--- a\n+++ a\n" + "".join(f"-{place}\n" for place in range(10)))
    assert rows == ["-0", "-1", "-2", "  ... and 7 rows more"]


def test_findings_in_short(found):
    rows = list(found_rows(found))
    marked = [row for row in rows if row[2:10].strip()]
    assert len(marked) == len(found.proof.findings) + len(found.proof.untold)
    assert all(len(row) <= 92 for row in rows)
    assert "(row 177)" in " ".join(rows)


def test_a_step(found):
    step = next(mending(found))
    rows = list(step_rows(1, step, found.proof))
    assert rows[0].startswith("   1 safe ")
    assert rows[-1].strip().count(" -> ") == 1
    assert all(len(row) <= 92 for row in rows)


def test_what_a_step_brings_to_light(found):
    before = found
    for number, step in enumerate(mending(found), 1):
        if step.done.effect.new:
            rows = " ".join(step_rows(number, step, before.proof))
            assert "brings to light: " in rows
            return
        before = step.after
    pytest.fail("no step brought anything to light")
