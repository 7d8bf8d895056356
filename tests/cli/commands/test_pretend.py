import pytest

from tests.cli.running import ran
from tests.samples.reading import AS_FOUND, ORCHARD


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_capture_with_mistakes_in_words(here, capsys):
    done = ran(capsys, "pretend", ORCHARD, "a.cap", "--fault", "numbering delay +1")
    assert done.code == 0
    assert "with: program numbers for Bramley Delay are one too high" in done.out
    assert (here / "a.cap").read_text().startswith("thruline capture 1\n")
    assert ran(capsys, "listen", ORCHARD, "--replay", "a.cap").code == 0


def test_json_and_an_earlier_version(capsys):
    told = ran(capsys, "pretend", ORCHARD, "a.cap", "--before", AS_FOUND, "--fault", "stale-all",
               "--garbled", "0.01", "--json").json  # fmt: skip
    assert told["written"] == "a.cap"
    assert len(told["faults"]) == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--fault", "sleepy"), "no mistake that can be ordered"),
        (("--at", "delay"), "no MIDI output"),
        (("--lost", "2"), "is not in the range"),
    ],
)
def test_what_cannot_be_used(capsys, words, says):
    done = ran(capsys, "pretend", ORCHARD, "a.cap", *words)
    assert done.code == 2
    assert says in done.err


def test_nothing_of_somebodys_is_written_over(here, capsys):
    (here / "a.cap").write_text("mine")
    assert ran(capsys, "pretend", ORCHARD, "a.cap").code == 2
    assert (here / "a.cap").read_text() == "mine"
