"""Single sheets."""

import pytest

from tests.opening import open_text
from thruline.app.chart import paper_json
from thruline.app.sheet import SHEETS
from thruline.outside.samples import ORCHARD_STREET, sample_text


@pytest.mark.parametrize("which", SHEETS)
def test_every_sheet_of_the_sample_is_filled(which):
    opened = open_text(sample_text(ORCHARD_STREET))
    paper = SHEETS[which](opened)
    assert opened.rig.name in paper.title
    assert paper.sections
    told = paper_json(paper)
    assert [one["title"] for one in told["sections"]] == [one.title for one in paper.sections]
    assert any(one["rows"] for one in told["sections"])


@pytest.mark.parametrize("which", ["cables", "power"])
def test_cautions_go_with_what_can_hurt(which):
    paper = SHEETS[which](open_text(sample_text(ORCHARD_STREET)))
    assert paper.sections[-1].title == "Cautions"
