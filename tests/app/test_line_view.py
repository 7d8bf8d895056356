import pytest

from tests.app.keeping import BOARD
from tests.opening import open_text
from thruline.app.line_view import line_view
from thruline.app.mend import state_of
from thruline.app.trace import trace
from thruline.base.errors import CannotUse
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.wiring import open_sample


def view(text=BOARD, *asked, **more):
    return line_view(state_of(open_text(text)), *asked, **more)


def test_it_tells_the_same_as_a_trace():
    state = state_of(open_text(BOARD))
    told, found = line_view(state, 2, came_from=1), trace(state.case, 2, came_from=1)
    assert told["heading"].startswith('2 "Lead", coming from 1 "Clean"')
    sent = [one.item.data.hex(" ").upper() for one in found.messages]
    assert [one["bytes"] for one in told["messages"]] == sent
    assert len(sent) == 1
    hop = told["messages"][0]["ways"][0]["hops"][0]
    assert (hop["from"], hop["to"]) == ("feet.midi-out-1", "delay.midi-in")
    assert 'data-message="1"' in told["svg"]
    assert " style=" not in told["svg"]


def test_the_first_preset_is_shown_unless_another_is_asked_for():
    assert view()["preset"]["number"] == 1
    with pytest.raises(CannotUse, match="no preset 7"):
        view(BOARD, 7)


def test_a_rig_that_sends_nothing_yet_says_what_is_missing():
    assert "no presets yet" in view(BOARD.partition("[[preset]]")[0])["lacks"]
    text = 'format = 1\n[rig]\nname = "A"\ncontroller = "nobody"\n' + BOARD
    assert "no foot controller" in view(text)["lacks"]


def test_settled_it_is_the_order_that_papers_give():
    state = state_of(open_sample(sample_text(ORCHARD_STREET), ORCHARD_STREET))
    for preset in state.opened.rig.presets:
        settled = line_view(state, preset.number, settled=True)
        found = trace(state.case, preset.number)
        sent = [one.item.data.hex(" ").upper() for one in found.messages]
        assert [one["bytes"] for one in settled["messages"]] == sent
        at_first = line_view(state, preset.number)
        assert at_first["compared"][0]["lost"] == settled["compared"][0]["lost"]
        assert {one["bytes"] for one in at_first["messages"]} == set(sent)
