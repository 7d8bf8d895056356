import json

import pytest

from tests.samples.reading import AS_FOUND, ORCHARD
from thruline.app.demo import (
    MADE,
    MENDED,
    SAYS,
    SHOWN_PRESET,
    Shown,
    demo_json,
    left_files,
    mended_state,
    mended_text,
)
from thruline.app.load import open_rig
from thruline.app.mend import state_of
from thruline.app.mending import mending
from thruline.outside.shelves import sample_shelf

FOUND = AS_FOUND.read_text(encoding="utf-8")
MEANT = ORCHARD.read_text(encoding="utf-8")


def whole():
    found = state_of(open_rig(FOUND, file="as-found.rig.toml", shelves=(sample_shelf(),)))
    steps = tuple(mending(found))
    mended = mended_state(steps[-1].after, MENDED)
    return Shown(folder="demo", found=found, steps=steps, mended=mended)


@pytest.fixture(scope="module")
def shown():
    return whole()


def test_the_mended_board_stands_in_a_file_of_its_own(shown):
    text = shown.mended.opened.document.text
    again = open_rig(text, file=MENDED, shelves=(sample_shelf(),))
    assert again.rig.name == "Orchard Street Revival, guitar chair, mended"
    assert "invented" in text[:300]
    assert shown.mended.opened.document.file == MENDED
    assert not state_of(again).proof.findings


def test_only_mends_and_the_head_differ(shown):
    body = mended_text(shown.found.opened).splitlines()
    before = FOUND.splitlines()
    assert sum(row not in before for row in body) <= 7


def test_every_file_is_told_and_left(shown):
    left = left_files(MEANT, shown)
    assert [*left, MADE] == list(SAYS)
    assert left["timing-chart.svg"].startswith("<svg")
    assert left["report.html"].lower().startswith("<!doctype html>")
    assert left["as-found.rig.toml"] == FOUND


def test_it_comes_out_the_same_each_time(shown):
    again = whole()
    assert demo_json(again) == demo_json(shown)
    assert left_files(MEANT, again) == left_files(MEANT, shown)


def test_told_to_other_programs(shown):
    told = json.loads(json.dumps(demo_json(shown)))
    assert told["found"]["counts"]["fault"] > 0
    assert told["mended"]["counts"]["fault"] == 0
    assert len(told["steps"]) == len(shown.steps)
    assert [one["file"] for one in told["files"]] == list(SAYS)


def test_the_shown_preset_is_one_that_was_mended(shown):
    assert any(f"preset {SHOWN_PRESET} " in step.done.mend.says for step in shown.steps)
