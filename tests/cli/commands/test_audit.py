import threading

import pytest

from tests.cli.running import ran
from tests.samples.reading import ORCHARD
from tests.wires import kinds


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_capture_of_a_good_board(capsys):
    assert ran(capsys, "pretend", ORCHARD, "a.cap").code == 0
    done = ran(capsys, "audit", ORCHARD, "a.cap")
    assert done.code == 0
    assert "DIFF" not in done.out


def test_two_mistakes_and_a_report(here, capsys):
    order = ("--fault", "numbering delay +1", "--fault", "channels-swapped reverb mod")
    ran(capsys, "pretend", ORCHARD, "a.cap", *order, "--at", "feet.midi-out-1", "--lost", "0.01")
    done = ran(capsys, "audit", ORCHARD, "a.cap", "--report", "report.txt")
    assert done.code == 1
    likeliest = next(row for row in done.out.splitlines() if row.startswith("LIKELIEST"))
    assert "Bramley Delay are one too high" in likeliest
    assert "Pippin Reverb and Fiesta Modulation are exchanged" in likeliest
    assert done.out.strip() in (here / "report.txt").read_text()
    told = ran(capsys, "audit", ORCHARD, "a.cap", "--json").json
    assert {one["family"] for one in told["causes"][0]["faults"]} == {
        "numbering", "channels-swapped",
    }  # fmt: skip
    assert ran(capsys, "audit", ORCHARD, "a.cap", "--report", "report.txt").code == 2


def test_the_report_takes_the_form_that_its_name_asks_for(here, capsys):
    ran(capsys, "pretend", ORCHARD, "a.cap", "--fault", "channels-swapped reverb mod")
    forms = {"r.html": b"<!doctype", "r.pdf": b"%PDF-", "r.md": b"# Audit:", "r.txt": b"Orchard"}
    for name, begin in forms.items():
        done = ran(capsys, "audit", ORCHARD, "a.cap", "--report", name)
        assert (done.code, "UNEXPLAINED" in done.out) == (1, False), (
            "places of pedals are no riddle"
        )
        assert (here / name).read_bytes().lstrip().startswith(begin)
    page = (here / "r.html").read_text()
    assert page.count("<figure") == 6
    assert "Pippin Reverb and Fiesta Modulation are exchanged" in page


@kinds.IN_REAL_TIME
def test_live_until_ctrl_c_or_the_end(capsys, tmp_path):
    with kinds.jack(tmp_path) as kind:

        def press():
            kinds.begun(tmp_path / "live.cap", "press 1")
            kind.says(b"\xca\x00")

        person = threading.Thread(target=press)
        person.start()
        done = ran(capsys, "audit", ORCHARD, "--port", "speaks", "--patience", "0.2",
                   "--log", "live.cap")  # fmt: skip
        person.join()
    assert done.code == 1
    assert 'now: press preset 1 "House open"' in done.err
    assert done.err.count(": nothing came") == 26
    assert done.err.count("so far:") <= 1, "what nothing new was heard of is not said again"
    assert done.out.count("  DIFF  ") == 1
    assert done.out.count(": not pressed") == 26
    assert ran(capsys, "audit", ORCHARD, "live.cap").out == done.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "name a capture to look at"),
        (("none.cap",), "none.cap is not there"),
        ((ORCHARD,), "is no capture"),
        (("a.cap", "--port", "USB"), "name a capture to look at"),
    ],
)
def test_what_cannot_be_used(capsys, words, says):
    done = ran(capsys, "audit", ORCHARD, *words)
    assert done.code == 2
    assert says in done.err


def test_a_capture_of_something_else(here, capsys):
    (here / "a.cap").write_text("thruline capture 1\nline 1 USB\n0 1 F8\n")
    done = ran(capsys, "audit", ORCHARD, "a.cap")
    assert done.code == 2
    assert "is the right port listened to" in done.err
