import pytest

from thruline.app.chart_desk import chart_copied, chart_edited
from thruline.app.desk import edited, undone
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.base.errors import CannotUse
from thruline.desk_wiring import keeping_for
from thruline.workbench.room import MOST_SHOWN, Room
from thruline.workshop.history import KeptElsewhere


def named(name):
    edit = set_to(read_address("rig.name"), name)
    return lambda desk, keeping: edited(desk, [edit], keeping, says="Named")


def test_a_step_turns_and_tells_what_it_did(folder):
    room = Room("good", folder / "good.rig.toml")
    told = room.step(named("Other"))
    assert (told["turn"], told["rig"]) == (2, "Other")
    assert told["effect"] == {"gone": [], "new": []}
    assert room.step(named("Other"))["turn"] == 2


def test_two_workbenches_on_one_rig_do_not_undo_each_other(folder):
    one, other = (Room("good", folder / "good.rig.toml") for _ in range(2))
    one.step(named("Mine"))
    one.settle()
    with pytest.raises(KeptElsewhere):
        other.step(undone)
    assert other.step(named("Theirs"))["rig"] == "Theirs"
    assert 'name = "Theirs"' in (folder / "good.rig.toml").read_text()


def test_revisions_are_kept_after_the_answer_and_a_workbench_that_ends_before_loses_nothing(folder):
    file = folder / "good.rig.toml"
    room = Room("good", file)
    room.step(named("Mine"))
    assert 'name = "Mine"' in file.read_text()
    assert keeping_for(file).revisions.recall().now == 1
    again = Room("good", file)
    assert again.desk.history.undo == (1,)
    assert again.desk.state.opened.rig.name == "Mine"
    room.settle()
    assert room.desk.history.now == again.desk.history.now


def test_what_two_workbenches_did_at_once_is_kept_by_both(folder):
    file = folder / "good.rig.toml"
    one, other = (Room("good", file) for _ in range(2))
    one.step(named("Mine"))
    other.step(named("Theirs"))
    one.settle()
    turn = other.turn
    other.settle()
    assert other.turn == turn + 1
    assert other.desk.state.opened.rig.name == "Theirs"
    assert 'name = "Theirs"' in file.read_text()
    texts = [other.keeping.revisions.text(one.number) for one in other.keeping.revisions.listed()]
    assert ['name = "Theirs"' in text for text in texts] == [True, False, False]


def test_a_page_is_told_only_the_findings_that_it_does_not_show(folder):
    room = Room("found", folder / "found.rig.toml")
    shown = room.status()
    entry = room.desk.state.opened.rig.presets[0].address
    edit = set_to(entry.child("name"), "Another name")
    told = room.step(
        lambda desk, keeping: edited(desk, [edit], keeping, says="Named"), have=shown["mark"]
    )
    assert any(isinstance(one, int) for one in told["findings"])
    whole = [shown["findings"][one] if isinstance(one, int) else one for one in told["findings"]]
    assert whole == room.status()["findings"]


def test_a_page_that_shows_something_long_past_is_told_all(folder):
    room = Room("good", folder / "good.rig.toml")
    mark = room.status()["mark"]
    for nth in range(MOST_SHOWN + 1):
        room.step(named(f"Name {nth}"))
    assert room.shown_at(mark) is None
    assert room.shown_at(room.status()["mark"]) is room.desk.state


def test_what_something_else_wrote_stays_noticed_when_an_edit_on_top_is_refused(folder):
    file = folder / "good.rig.toml"
    room = Room("good", file)
    name = room.desk.state.opened.rig.name
    file.write_text(file.read_text().replace(f'name = "{name}"', 'name = "Outside"', 1))
    wrong = set_to(read_address("rig.no-such-key"), "x")
    for _ in range(2):
        with pytest.raises(CannotUse):
            room.step(lambda desk, keeping: edited(desk, [wrong], keeping, says="Wrong"))
    assert (room.desk.state.opened.rig.name, room.turn) == ("Outside", 2)
    room.step(undone)
    room.settle()
    assert room.desk.state.opened.rig.name == name
    assert len(room.keeping.revisions.listed()) == 2


def test_a_chart_that_another_rig_has_changed_is_noticed(folder):
    room, other = (Room(name, folder / f"{name}.rig.toml") for name in ("good", "found"))
    room.step(
        lambda desk, keeping: chart_copied(desk, keeping, "bramley-delay", new="bramley-delay")
    )
    other.look_at_file()
    turn = other.turn
    edit = set_to(read_address("settle.ms"), 777)
    room.step(
        lambda desk, keeping: chart_edited(desk, keeping, "bramley-delay", make=lambda _data: edit)
    )
    other.look_at_file()
    assert other.turn == turn + 1
    assert other.desk.state.opened.charts["bramley-delay"].settle.load_us == 777_000
    other.look_at_file()
    assert other.turn == turn + 1
