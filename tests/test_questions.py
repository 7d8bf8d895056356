import doctest

import pytest

import thruline
from tests.samples.reading import AS_FOUND, FIRST_BOARD, ORCHARD
from thruline import questions


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    (tmp_path / "board.rig.toml").write_bytes(AS_FOUND.read_bytes())
    return tmp_path


def examples(module):
    """What the docstrings of a module show, in order, as one run."""
    finder = doctest.DocTestFinder(exclude_empty=True, recurse=module is questions)
    found = [one for one in finder.find(module, module.__name__) if one.examples]
    return sorted(found, key=lambda one: one.lineno or 0)


@pytest.mark.parametrize("module", [thruline, questions], ids=["thruline", "questions"])
def test_every_example_gives_what_it_shows(here, module):
    names = {"thruline": thruline}
    runner = doctest.DocTestRunner(optionflags=doctest.NORMALIZE_WHITESPACE)
    for one in examples(module):
        one.globs = names
        runner.run(one, clear_globs=False)
    assert runner.tries
    assert runner.failures == 0


def test_every_question_has_an_example():
    told = {one.name.rpartition(".")[2] for one in examples(questions)}
    asked = {name for name in thruline.__all__ if name.islower() and not name.startswith("_")}
    assert asked <= told


def test_a_rig_may_be_given_by_its_file(here):
    by_file = thruline.prove("board.rig.toml")
    assert by_file == thruline.prove(here / "board.rig.toml")
    assert by_file == thruline.prove(thruline.load("board.rig.toml"))


def test_going_back_is_keeping_what_was(here):
    forgotten = FIRST_BOARD.read_text(encoding="utf-8").replace("control-receive", "# left out")
    (here / "board.rig.toml").write_text(forgotten, encoding="utf-8")
    board = thruline.load("board.rig.toml")
    mend = next(one for one in thruline.mends(board) if one.is_safe).mend
    better = thruline.apply(board, mend)
    assert len(thruline.prove(better).findings) < len(thruline.prove(board).findings)
    thruline.save(better)
    assert thruline.prove("board.rig.toml") == thruline.prove(better)
    thruline.save(board)
    assert (here / "board.rig.toml").read_text(encoding="utf-8") == forgotten


def test_a_clean_board_is_clean(here):
    assert not thruline.prove(ORCHARD).findings


@pytest.mark.parametrize(
    "ask",
    [
        lambda: thruline.load("nothing.rig.toml"),
        lambda: thruline.prove("nothing.rig.toml"),
        lambda: thruline.trace("board.rig.toml", 99),
        lambda: thruline.chart("nothing"),
        lambda: thruline.plan_channels("board.rig.toml", {"nobody": 3}),
        lambda: thruline.work_order("board.rig.toml", "nothing.rig.toml"),
        lambda: thruline.chart("board.rig.toml"),
        lambda: thruline.save(thruline.load("board.rig.toml"), "nowhere/a.rig.toml"),
    ],
)
def test_what_cannot_be_used(here, ask):
    with pytest.raises(thruline.CannotUse):
        ask()


def test_a_plan_is_applied_like_a_mend(here):
    plan = thruline.plan_power("board.rig.toml")
    board = plan.tried.after.opened
    assert thruline.plan_power(board).tried.edits == ()
    assert thruline.work_order("board.rig.toml", board).tasks
    assert thruline.plan_cables(board, remake=True, sold=True).cuts == ()
