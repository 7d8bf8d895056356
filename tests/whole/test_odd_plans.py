"""Rigs that make no sense are planned, put on paper and compared like any other."""

import random

import pytest

from benchmarks.odd_rigs import edited, odd_document
from benchmarks.proof_checks import opened
from thruline.app.compare import compare, compare_json, compare_sections
from thruline.app.plan_cables import Stock, cable_sections, cables_json, plan_rig_cables
from thruline.app.plan_channels import channel_json, channel_sections, plan_rig_channels
from thruline.app.plan_power import plan_rig_power, power_json, power_sections
from thruline.app.sheet import SHEETS, sheet_material
from thruline.document.write import document_text
from thruline.papers.as_csv import paper_csv
from thruline.papers.as_html import paper_html
from thruline.plan.cables import Wish

SEEDS = range(400, 408)
UNFED = "power.unit-without-power"


def rigs(seed):
    """An odd rig, and the same after an edit."""
    rng = random.Random(seed)
    document = odd_document(rng)
    return opened(document_text(document)), opened(document_text(edited(document, rng)))


@pytest.mark.parametrize("seed", SEEDS)
def test_channels_clash_no_more(seed):
    found = plan_rig_channels(rigs(seed)[0], {})
    rules = {one.rule for one in found.tried.after.proof.findings}
    assert (found.plan is None) == (found.clash is not None)
    assert found.plan is None or "understanding.two-units-on-a-channel" not in rules
    assert channel_json(found)["says"]
    assert len(list(channel_sections(found))) <= 2


@pytest.mark.parametrize("seed", SEEDS)
def test_power_causes_no_fault_but_units_that_nothing_feeds(seed):
    found = plan_rig_power(rigs(seed)[0])
    assert found.plan.is_best
    short = {one.unit.address for one in found.to_buy}
    for finding in found.tried.effect.new:
        if finding.rule.startswith("power") and finding.severity == "fault":
            assert finding.rule == UNFED
            assert set(finding.where) <= short
    assert power_json(found)["cautions"]
    assert list(power_sections(found))[-1].title == "Cautions"


@pytest.mark.parametrize("seed", SEEDS)
def test_cables_planned_twice_are_as_planned_once(seed):
    stock = Stock(spools={}, rests={})
    found = plan_rig_cables(rigs(seed)[0], Wish(), stock)
    assert len(cables_json(found)["cables"]) == len(found.cables)
    assert list(cable_sections(found))[-1].title == "Cautions"
    again = plan_rig_cables(found.tried.after.opened, Wish(), stock)
    assert again.tried.edits == ()


@pytest.mark.parametrize("seed", SEEDS[:4])
@pytest.mark.parametrize("which", SHEETS)
def test_every_sheet_can_be_made(seed, which):
    paper = SHEETS[which](sheet_material(rigs(seed)[0]))
    assert paper.title in paper_html(paper)
    assert paper_csv(paper) or not any(section.table for section in paper.sections)


@pytest.mark.parametrize("seed", SEEDS)
def test_any_two_rigs_are_compared_and_the_work_is_proved(seed):
    old, new = rigs(seed)
    other, _ = rigs(seed + 1)
    for one, two in ((old, new), (new, old), (old, other)):
        found = compare(one, two)
        assert found.is_complete
        assert found.is_least
        assert len(compare_json(found)["tasks"]) == len(found.tasks)
        assert list(compare_sections(found))[-1].title == "Proof"
