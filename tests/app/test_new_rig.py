import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.opening import TextShelf
from tests.samples.reading import CHART_FILES, FIRST_BOARD, charts
from thruline.app.load import open_rig
from thruline.app.new_rig import NewRig, board_name, file_name, first_board, new_json
from thruline.app.prove import prove_rig
from thruline.base.errors import CannotUse
from thruline.document.problems import BadDocument
from thruline.document.unseen import unseen_in
from thruline.outside.shelves import sample_shelf
from thruline.proof.finding import Severity

TEXT = FIRST_BOARD.read_text(encoding="utf-8")
CONTROLLERS = sorted(one.id for one in charts().values() if one.abilities is not None)


def made(name="My board", controller=None, *own):
    shelves = (TextShelf(own), sample_shelf())
    text = first_board(TEXT, name, controller=controller, shelves=shelves)
    opened = open_rig(text, file="my.rig.toml", shelves=shelves)
    return NewRig(file="my.rig.toml", opened=opened, proof=prove_rig(opened)[1])


def is_seen(name):
    return not unseen_in(name)


def own_controller(**changes):
    """The first board's own controller, otherwise."""
    file = next(file for file in CHART_FILES if "quarrenden" in file.name)
    text = file.read_text(encoding="utf-8").replace('"quarrenden-three"', '"mine"')
    for old, new in changes.values():
        assert old in text
        text = text.replace(old, new)
    return text


def test_it_is_the_first_board_under_another_name():
    opened = made().opened
    assert opened.document.text == TEXT.replace('"NAME"', '"My board"')
    assert opened.rig.name == "My board"


def test_it_proves_clean():
    proof = made().proof
    assert not proof.findings
    assert not proof.untold


@pytest.mark.parametrize("controller", CONTROLLERS)
def test_it_proves_clean_with_any_controller_of_the_samples(controller):
    board = made(controller=controller)
    assert board.opened.rig.controller.chart.id == controller
    assert not board.proof.findings
    assert not board.proof.untold
    assert not board.proof.undescribed


def test_the_board_grows_with_a_controller_and_never_shrinks():
    first = made().opened.rig.board
    for width, grown in ((160, first.width), (1160, 1180), (5000, 5000)):
        text = own_controller(size=("width = 160", f"width = {width}"))
        board = made("A", "mine", text).opened.rig.board
        assert (board.width, board.depth) == (grown, first.depth)


def test_a_jack_of_type_b_gets_its_lead():
    text = own_controller(wiring=('wiring = "type-a"', 'wiring = "type-b"'))
    board = made("A", "mine", text)
    assert board.proof.is_clean
    assert 'wiring = "type-b"' in board.opened.document.text


def test_a_controller_that_no_outlet_suits_is_told_by_the_proof():
    text = own_controller(power=("millivolts = 9000", "millivolts = 48000"))
    board = made("A", "mine", text)
    assert "feet.power-in" not in board.opened.document.text


def test_a_controller_without_a_way_out():
    text = own_controller(output=('ways = ["own"]', 'ways = ["off"]'))
    with pytest.raises(CannotUse, match="has no MIDI output that sends"):
        made("A", "mine", text)


def test_a_chart_that_is_no_controller():
    with pytest.raises(CannotUse, match="is a delay and recalls no presets"):
        made(controller="bramley-delay")
    with pytest.raises(CannotUse, match='did you mean "braeburn-six"'):
        made(controller="braeburn")


@pytest.mark.parametrize("name", ["", "x" * 81, "a\nd", "a\x1b[2J", "\x00", "a\u202eb"])
def test_names_that_no_board_can_have(name):
    with pytest.raises(CannotUse, match="cannot be the name of a rig") as refused:
        made(name)
    assert not isinstance(refused.value, BadDocument)


@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=80).filter(is_seen))
def test_any_other_name_is_kept(name):
    shelves = (sample_shelf(),)
    text = first_board(TEXT, name, controller=None, shelves=shelves)
    assert open_rig(text, file="a", shelves=shelves).rig.name == name


@pytest.mark.parametrize(
    ("typed", "file", "name"),
    [
        ("my-board", "my-board.rig.toml", "My board"),
        ("my-board.toml", "my-board.rig.toml", "My board"),
        ("a/Act_2.rig.toml", "a/Act_2.rig.toml", "Act 2"),
        ("-", "-.rig.toml", "My rig"),
    ],
)
def test_names_of_files(typed, file, name):
    assert file_name(typed) == file
    assert board_name(file) == name


@pytest.mark.parametrize("typed", ["", ".rig.toml", ".toml", "a/", "a/.rig.toml", ".", "a/.."])
def test_what_is_no_name_of_a_file(typed):
    with pytest.raises(CannotUse, match="no name for a rig document; one reads like my-board"):
        file_name(typed)


def test_told_to_other_programs():
    told = new_json(made())
    assert told["controller"] == "quarrenden-three"
    assert told["counts"] == {severity.value: 0 for severity in Severity}
