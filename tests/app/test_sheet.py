"""Single sheets."""

import pytest

from tests.opening import open_text
from thruline.app.book_parts import PARTS
from thruline.app.chart import paper_json
from thruline.app.sheet import SHEETS, sheet_book, sheet_material, sheet_of
from thruline.outside.samples import AS_FOUND, ORCHARD_STREET, sample_text


@pytest.mark.parametrize("which", SHEETS)
def test_every_sheet_of_the_sample_is_filled(which):
    opened = open_text(sample_text(ORCHARD_STREET))
    paper = SHEETS[which](sheet_material(opened))
    assert opened.rig.name in paper.title
    assert paper.sections
    told = paper_json(paper)
    assert [one["title"] for one in told["sections"]] == [one.title for one in paper.sections]
    assert any(one["rows"] for one in told["sections"])


@pytest.mark.parametrize("which", SHEETS)
def test_what_stands_is_said_once_and_nothing_of_what_is_proved(which):
    found, clean = (
        sheet_of(sheet_material(open_text(sample_text(one))), which)
        for one in (AS_FOUND, ORCHARD_STREET)
    )
    said = [row for row in found.about if row.startswith("Not proved: ")]
    assert len(said) == (which != "proof")
    assert all(row.endswith(" stand.") for row in said)
    assert not any("Not proved" in row for row in clean.about)


@pytest.mark.parametrize("which", ["cables", "power"])
def test_cautions_go_with_what_can_hurt(which):
    paper = SHEETS[which](sheet_material(open_text(sample_text(ORCHARD_STREET))))
    assert paper.sections[-1].title == "Cautions"


def test_a_sheet_is_a_part_of_the_book():
    material = sheet_material(open_text(sample_text(ORCHARD_STREET)), date="1 May 2026")
    for which in ("faults", "setlist", "proof"):
        paper = SHEETS[which](material)
        (part,) = sheet_book(material, paper, which=which, date="1 May 2026").parts
        assert part.blocks == PARTS[which](material).blocks


def test_labels_are_printed_to_be_cut_out():
    material = sheet_material(open_text(sample_text(ORCHARD_STREET)))
    paper = SHEETS["labels"](material)
    (part,) = sheet_book(material, paper, which="labels", date="").parts
    (labels,) = part.blocks
    assert len(labels.labels) == len(paper.sections[0].table.rows)
