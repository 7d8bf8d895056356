"""An option that would do nothing is told, and nothing is done."""

import pytest

from tests.cli.running import ran
from tests.samples.reading import ORCHARD


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    (tmp_path / "a.cap").write_text("thruline capture 1\n")
    return tmp_path


@pytest.mark.parametrize(
    ("words", "option"),
    [
        ("listen --replay a.cap --log new.log", "--log"),
        ("listen --replay a.cap --for 3", "--for"),
        ("audit RIG a.cap --log new.log", "--log"),
        ("audit RIG a.cap --patience 20", "--patience"),
        ("learn new a.cap --log new.log", "--log"),
        ("backup RIG delay --replay a.cap --patience 3", "--patience"),
        ("clock --replay a.cap --for 3", "--for"),
        ("clock --in a --bpm 120", "--bpm"),
        ("trace RIG 1 --dark", "--dark"),
        ("plan cables RIG --codes", "--codes"),
        ("plan cables RIG --sold --spool 3000", "--spool"),
        ("sheet RIG cables --paper letter", "--paper"),
        ("find RIG --card --keep search.json", "--keep"),
        ("find RIG --html card.html --report a.pdf", "--report"),
        ("send RIG 1 --try --seconds 4", "--seconds"),
        ("send RIG Volume --port a --step", "--step"),
        ("send RIG Volume --port a --for 3", "--for"),
        ("send RIG Volume --port a --by-keyboard --seconds 3", "--seconds"),
        ("send RIG --panic --port a --try", "--try"),
        ("prove RIG --preset 1", "--preset"),
        ("mend RIG --undo --try", "--try"),
    ],
)
def test_an_option_that_would_do_nothing_is_told(here, capsys, words, option):
    before = set(here.iterdir())
    done = ran(capsys, *(ORCHARD if one == "RIG" else one for one in words.split()))
    assert (done.code, done.out) == (2, "")
    assert done.err.startswith(option)
    assert set(here.iterdir()) == before
