import pytest

from tests.app.keeping import keeping
from thruline.app import desk as desks
from thruline.app.chart_desk import chart_copied, chart_edited
from thruline.app.fact_view import typed_edit
from thruline.app.revision_view import compared, revisions_json
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.base.errors import CannotUse
from thruline.desk_wiring import keeping_for
from thruline.document.chart_shape import ChartShape
from thruline.outside.samples import ORCHARD_STREET, sample_text


@pytest.fixture
def kept():
    return keeping()


def test_an_earlier_state_is_held_against_the_desk(kept):
    edit = set_to(read_address("unit[delay].channel"), 4)
    desk = desks.edited(desks.open_desk(kept), [edit], kept, says="Changed the channel")
    told = revisions_json(desk, kept, old=1)
    assert [(one["number"], one["is_now"]) for one in told["revisions"]] == [(2, True), (1, False)]
    assert "-channel = 3" in told["compared"]["rows"]
    assert "+channel = 4" in told["compared"]["rows"]
    assert revisions_json(desk, kept)["compared"] is None
    with pytest.raises(CannotUse, match="no revision 9"):
        revisions_json(desk, kept, old=9)


def test_a_state_that_cannot_be_used_is_still_shown(kept):
    desk = desks.open_desk(kept)
    kept.file.content = b"[[preset"
    desk = desks.caught_up(desk, kept)
    told = compared(desk, kept, desk.history.last)
    assert told["unusable"]
    assert "-[[preset" in told["rows"]


def test_the_states_of_a_chart_are_held_against_it_too(tmp_path, monkeypatch):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    monkeypatch.delenv("THRULINE_STORE", raising=False)
    file = tmp_path / "good.rig.toml"
    file.write_text(sample_text(ORCHARD_STREET), encoding="utf-8")
    kept, chart = keeping_for(file), "bramley-delay"
    desk = chart_copied(desks.open_desk(kept), kept, chart, new=chart)
    told = revisions_json(desk, kept, chart=chart)
    assert (told["revisions"], told["charts"]) == ([], [chart])
    desk = chart_edited(
        desk, kept, chart, make=lambda _data: typed_edit(ChartShape, "settle.ms", "9000")
    )
    told = revisions_json(desk, kept, chart=chart, old=1)
    assert [(one["number"], one["is_now"]) for one in told["revisions"]] == [(2, True), (1, False)]
    assert "+ms = 9000" in told["compared"]["rows"]
    assert told["compared"]["new"]
    assert not told["compared"]["unusable"]
    with pytest.raises(CannotUse, match="only those have revisions"):
        revisions_json(desk, kept, chart="pippin-reverb")
