import sys

from tools import check
from tools.check import Check

FINE = Check("fine", "all is well", (sys.executable, "-c", "print('quiet')"))
BAD = Check("bad", "nothing is", (sys.executable, "-c", "print('row 3'); exit(9)"))


def test_all_clean(monkeypatch, capsys) -> None:
    monkeypatch.setattr(check, "CHECKS", (FINE,))
    assert check.main([]) == 0
    said = capsys.readouterr().out
    assert "1 of 1 checks are clean" in said
    assert "quiet" not in said


def test_one_failure_fails_all_and_shows_why(monkeypatch, capsys) -> None:
    monkeypatch.setattr(check, "CHECKS", (BAD, FINE))
    assert check.main([]) == 1
    rows = capsys.readouterr().out.splitlines()
    assert rows[0].startswith("FAILED bad")
    assert rows[1] == "row 3"
    assert rows[-1] == "1 of 2 checks are clean."


def test_only_the_named_checks_run(monkeypatch) -> None:
    monkeypatch.setattr(check, "CHECKS", (BAD, FINE))
    assert check.main(["fine"]) == 0


def test_an_unknown_check_is_told_the_known_ones(capsys) -> None:
    assert check.main(["typos"]) == 2
    assert "lint, format, types" in capsys.readouterr().err
