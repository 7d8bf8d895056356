"""The report of an audit: what differs press by press, why, and the charts of what differs."""

from dataclasses import replace

from tests.audit.boards import board
from thruline.app.audit import audit, plan_for
from thruline.app.audit_report import MOST_DRAWN, audit_figures, audit_paper
from thruline.audit.capture import Came
from thruline.audit.fault import Family, Fault
from thruline.bench.pretend import pretend_capture
from thruline.papers.as_html import paper_html
from thruline.proof.case import Case

CASE = Case(board())
MEANT = plan_for(CASE, ("USB",))
SWAPPED = Fault(Family.SWAPPED, 0, 2)


def heard(*faults, pressed=None):
    capture = pretend_capture(MEANT, faults, pressed=pressed)
    return audit(capture, MEANT), capture


def sections(*faults, pressed=None):
    found, _ = heard(*faults, pressed=pressed)
    paper = audit_paper(found, MEANT, CASE.rig, made="today")
    return paper, {one.title: one for one in paper.sections}


def test_every_press_is_told():
    paper, by_title = sections(SWAPPED, pressed=[0, 1, 2])
    assert paper.about[0] == "0 of 3 presses are as they were meant; 10 were not pressed."
    rows = by_title["Press by press"].table.rows
    assert [row[1] for row in rows] == ["differs"] * 3 + ["not pressed"] * 10
    title, _, missing, besides = rows[0]
    assert title == 'preset 1 "Cue 1"'
    assert "Orchard X: program change 1" not in besides
    assert "Orchard X" in missing
    assert "Orchard Z" in missing


def test_the_causes_say_where_to_look():
    _, by_title = sections(SWAPPED)
    odds, says, look = by_title["The likeliest cause"].table.rows[0]
    assert (odds, says) == ("over 99 %", "the channels of Orchard X and Orchard Z are exchanged")
    assert look.startswith("the channels of")
    assert "What is not explained" not in by_title


def test_what_would_look_just_the_same_is_told_below():
    shut = Fault(Family.SHUT, 0)
    meant = plan_for(CASE, ("c.midi-out", "feet.midi-out"))
    paper = audit_paper(audit(pretend_capture(meant, [shut]), meant), meant, CASE.rig, made="today")
    assert len(paper.sections[0].notes) >= 2


def test_what_is_not_explained_comes_first():
    _, capture = heard()
    others = tuple(
        replace(one, data=bytes((0x9F, 60, number % 128)))
        for number, one in enumerate(capture.entries)
        if isinstance(one, Came)
    )
    both = sorted((*capture.entries, *others), key=lambda one: one.at_us)
    found = audit(replace(capture, entries=tuple(both)), MEANT)
    paper = audit_paper(found, MEANT, CASE.rig, made="today")
    assert paper.sections[0].title == "What is not explained"
    assert paper.sections[0].table.rows


def test_presses_that_differ_are_drawn_and_no_others():
    found, capture = heard(SWAPPED)
    figures = audit_figures(found, capture, meant=MEANT, case=CASE)
    assert [one.title for one in figures] == [
        f'Preset {n} "Cue {n}"' for n in range(1, MOST_DRAWN + 1)
    ]
    assert 'data-part="captured"' in figures[0].svg
    (messages,) = figures[0].sections
    assert {"did not come", "not planned"} <= {row[-1] for row in messages.table.rows}
    good, capture = heard()
    assert audit_figures(good, capture, meant=MEANT, case=CASE) == []


def test_a_page_holds_it_all_and_no_name_twice():
    found, capture = heard(SWAPPED)
    paper = audit_paper(found, MEANT, CASE.rig, made="today")
    page = paper_html(paper, audit_figures(found, capture, meant=MEANT, case=CASE))
    names = [part.split('"')[0] for part in page.split(' id="')[1:]]
    assert len(names) == len(set(names)) > MOST_DRAWN
    assert "Press by press" in page
    assert "<script" not in page
