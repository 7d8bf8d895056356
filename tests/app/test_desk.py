import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.app.keeping import BOARD, keeping
from tests.opening import with_head
from thruline.app import desk as desks
from thruline.app.clash import Clashing
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.base.errors import CannotUse
from thruline.workshop.history import Cause

MIX = read_address("preset[1].delay.mix")


def turned(desk, kept, value, **more):
    return desks.edited(desk, [set_to(MIX, value)], kept, says="Turned the mix", **more)


@pytest.fixture
def kept():
    return keeping()


@pytest.fixture
def desk(kept):
    return desks.open_desk(kept)


def test_an_edit_is_a_small_change_of_the_file(desk, kept):
    after = turned(desk, kept, 20)
    before = with_head(BOARD)
    assert kept.file.content.decode() == before.replace("mix = 10", "mix = 20")
    assert "# the good one" in after.text
    assert after.state.opened.rig.preset(1).goals[0].controls[0].value.wire == 20


def test_everything_is_undone_and_redone_across_restarts(desk, kept):
    turned(turned(desk, kept, 20), kept, 30)
    again = desks.open_desk(kept)
    assert "mix = 30" in again.text
    back = desks.undone(desks.undone(again, kept), kept)
    assert back.text == with_head(BOARD) == kept.file.content.decode()
    forward = desks.redone(desks.open_desk(kept), kept)
    assert "mix = 20" in forward.text
    with pytest.raises(CannotUse, match="nothing to undo"):
        desks.undone(desks.undone(forward, kept), kept)


def test_an_edit_that_changes_nothing_is_no_step(desk, kept):
    assert turned(desk, kept, 10).history == desk.history


def test_a_file_changed_outside_is_a_step_that_can_be_undone(desk, kept):
    kept.file.content = kept.file.content.replace(b"Lead", b"Solo")
    after = desks.caught_up(desk, kept)
    assert after.state.opened.rig.preset(2).name == "Solo"
    assert kept.revisions.known[after.history.now].cause is Cause.OUTSIDE
    assert "Lead" in desks.undone(after, kept).text


def test_nothing_changed_outside_is_the_same_desk(desk, kept):
    assert desks.caught_up(desk, kept) is desk


def test_an_edit_elsewhere_is_merged_with_what_was_changed_outside(desk, kept):
    kept.file.content = kept.file.content.replace(b"Lead", b"Solo")
    after = turned(desk, kept, 20, seen=desk.history.now)
    assert "Solo" in after.text
    assert "mix = 20" in after.text


def test_an_edit_of_the_same_place_is_asked_about(desk, kept):
    changed = kept.file.content.replace(b"mix = 10", b"mix = 11")
    kept.file.content = changed
    with pytest.raises(Clashing, match="changed meanwhile, to 11; you saw 10 and want 20"):
        turned(desk, kept, 20, seen=desk.history.now)
    assert kept.file.content == changed


def test_a_file_that_cannot_be_used_is_kept_and_not_overwritten(desk, kept):
    kept.file.content = b"[[preset"
    broken = desks.caught_up(desk, kept)
    assert broken.unreadable.content == b"[[preset"
    assert kept.revisions.texts[broken.history.last] == "[[preset"
    assert desks.caught_up(broken, kept) is broken
    with pytest.raises(CannotUse, match="cannot be used as it is now"):
        turned(broken, kept, 20)
    assert kept.file.content == b"[[preset"
    back = desks.restored(broken, broken.history.now, kept)
    assert kept.file.content.decode() == with_head(BOARD)
    assert back.unreadable is None


def test_a_file_that_was_mended_outside_is_usable_again(desk, kept):
    good = kept.file.content
    kept.file.content = b"[[preset"
    broken = desks.caught_up(desk, kept)
    kept.file.content = good
    assert desks.caught_up(broken, kept).unreadable is None


def test_a_document_that_is_taken_away_is_told_and_put_back(desk, kept):
    before, kept.file.content = kept.file.content, None
    gone = desks.caught_up(desk, kept)
    assert gone.unreadable.says.startswith("Something else has taken the document away")
    assert desks.caught_up(gone, kept) is gone
    with pytest.raises(CannotUse, match="put back what is on the desk"):
        turned(gone, kept, 20)
    back = desks.restored(gone, gone.history.now, kept)
    assert kept.file.content == before
    assert back.unreadable is None


def test_a_document_that_comes_back_is_usable_again(desk, kept):
    before, kept.file.content = kept.file.content, None
    gone = desks.caught_up(desk, kept)
    kept.file.content = before
    assert desks.caught_up(gone, kept).unreadable is None


def test_an_older_state_is_restored_as_a_step(desk, kept):
    late = turned(turned(desk, kept, 20), kept, 30)
    back = desks.restored(late, 1, kept)
    assert back.text == with_head(BOARD)
    assert desks.restored(back, 1, kept) is back
    assert desks.undone(back, kept).text == late.text


def test_a_changed_file_is_noticed_on_opening(desk, kept):
    kept.file.content = kept.file.content.replace(b"Lead", b"Solo")
    again = desks.open_desk(kept)
    assert again.history.undo == (1,)


def test_a_refused_edit_leaves_everything_as_it_was(desk, kept):
    before = kept.file.content
    with pytest.raises(CannotUse):
        desks.edited(desk, [set_to(read_address("unit[delay].channel"), 99)], kept, says="x")
    assert kept.file.content == before
    assert kept.revisions.history == desk.history


def test_a_name_has_its_bound(desk, kept):
    with pytest.raises(CannotUse, match="at most 80"):
        desks.named(1, "x" * 81, kept)
    desks.named(1, "  as \n delivered ", kept)
    assert kept.revisions.known[1][1] == "as delivered"


@settings(max_examples=15)
@given(st.lists(st.sampled_from(["undo", "redo", 20, 30, 40, "outside"]), max_size=8))
def test_the_file_the_store_and_the_desk_hold_the_same(moves):
    kept = keeping()
    desk = desks.open_desk(kept)
    for move in moves:
        try:
            if move == "outside":
                kept.file.content += b"# more\n"
                desk = desks.caught_up(desk, kept)
            elif move in ("undo", "redo"):
                desk = {"undo": desks.undone, "redo": desks.redone}[move](desk, kept)
            else:
                desk = turned(desk, kept, move)
        except CannotUse:
            assert move in ("undo", "redo")
        assert kept.file.content == desk.content
        assert kept.revisions.text(desk.history.now) == desk.text
