import io
import json
import os
import shlex
import sys

import pytest

from thruline.cli import show

LETTERS = "half an hour later: Ärger, 50 Ω, 日本"


class Terminal(io.StringIO):
    """Pretends to be a terminal."""

    def isatty(self):
        return True


def on_terminal(monkeypatch):
    """Standard error as a terminal; called in the test, for pytest sets its own before each."""
    made = Terminal()
    monkeypatch.setattr(sys, "stderr", made)
    return made


def encoded(monkeypatch, encoding):
    """Standard output in this encoding; what arrives is returned by calling it."""
    raw = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding=encoding))

    def arrived():
        sys.stdout.flush()
        return raw.getvalue().decode(encoding)

    return arrived


def test_colour_is_for_terminals_that_want_it(monkeypatch):
    monkeypatch.setattr(sys, "stdout", Terminal())
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    assert show.styled("FAULT", "fault") == "\x1b[1;31mFAULT\x1b[0m"
    monkeypatch.setenv("TERM", "dumb")
    assert show.styled("FAULT", "fault") == "FAULT"
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv("NO_COLOR", "1")
    assert show.styled("FAULT", "fault") == "FAULT"


HIDDEN = "a\x1b[2Jb\x07\u202ec\x9b\rd\x00"


def test_nothing_steers_the_terminal_but_our_own_styles(monkeypatch, capsys):
    show.say(HIDDEN)
    show.complain(HIDDEN)
    said = capsys.readouterr()
    assert said.out == said.err == "a\\x1b[2Jb\\x07\\u202ec\\x9b\\rd\\x00\n"
    assert show.harmless("a\tb\nc") == "a\tb\nc"
    for style in show.STYLES.values():
        assert show.harmless(f"{style}a{show.PLAIN}") == f"{style}a{show.PLAIN}"


@pytest.mark.parametrize("give", [show.give_json, show.give_row])
def test_nothing_in_json_steers_a_terminal(capsys, give):
    give({"says": HIDDEN})
    out = capsys.readouterr().out
    assert show.UNSEEN.sub("", out) == out
    assert json.loads(out) == {"says": HIDDEN}


def test_no_colour_off_a_terminal(capsys):
    show.say(show.styled("FAULT", "fault"))
    assert capsys.readouterr().out == "FAULT\n"


@pytest.mark.parametrize("encoding", ["utf-8", "ascii", "cp1252"])
def test_letters_that_cannot_be_shown_stop_nothing(monkeypatch, encoding):
    arrived = encoded(monkeypatch, encoding)
    show.settle_output()
    show.say(LETTERS + "\udcff")
    assert arrived().startswith("half an hour later: ")


@pytest.mark.parametrize("encoding", ["utf-8", "ascii", "cp1252"])
def test_json_is_whole_in_every_encoding(monkeypatch, encoding):
    arrived = encoded(monkeypatch, encoding)
    show.give_json({"says": LETTERS})
    assert json.loads(arrived()) == {"says": LETTERS}


def test_trouble_goes_to_standard_error(capsys):
    show.complain("no such file")
    said = capsys.readouterr()
    assert (said.out, said.err) == ("", "no such file\n")


def test_quick_work_shows_no_bar(monkeypatch):
    terminal = on_terminal(monkeypatch)
    with show.progress("trying mends", 3) as done:
        for place in range(3):
            done(place + 1)
    assert terminal.getvalue() == ""


def test_slow_work_shows_a_bar(monkeypatch):
    terminal = on_terminal(monkeypatch)
    monkeypatch.setattr(show, "SLOW_SECONDS", 0)
    monkeypatch.setenv("TERM", "xterm")
    with show.progress("trying mends", 3) as done:
        done(1)
        done(2, "going on")
        done(3)
    assert "trying mends" in terminal.getvalue()
    assert terminal.getvalue().count("going on") >= 1


def test_off_a_terminal_there_is_never_a_bar(capsys, monkeypatch):
    monkeypatch.setattr(show, "SLOW_SECONDS", 0)
    with show.progress("trying mends", 3) as done:
        done(3)
    assert capsys.readouterr().err == ""


def test_a_table():
    assert show.table(("rule", "what"), [("a.b", "c")]) == ["rule  what", "----  ----", "a.b   c"]


def test_an_output_that_is_closed_leads_nowhere(monkeypatch):
    monkeypatch.setattr(sys, "stdout", None)
    monkeypatch.setattr(sys, "stderr", None)
    show.settle_output()
    show.say(show.styled("FAULT", "fault"))
    show.complain("no such file")
    show.flush_output()
    for stream in (sys.stdout, sys.stderr):
        stream.close()


def test_what_goes_past_python_is_kept_out(capfd: pytest.CaptureFixture[str]) -> None:
    with show.only_ours():
        os.write(sys.stdout.fileno(), b"a note of some library\n")
    show.say("ours")
    assert capfd.readouterr().out == "ours\n"


@pytest.mark.parametrize(
    ("argv", "on_path", "says"),
    [
        (".venv/bin/thruline", None, ".venv/bin/thruline"),
        ("my tools/thruline", None, "'my tools/thruline'"),
        (".venv/bin/thruline", "/usr/bin/thruline", "thruline"),
        ("pytest", None, "thruline"),
        ("src/thruline/__main__.py", None, f"{shlex.quote(sys.executable)} -m thruline"),
    ],
)
def test_the_program_is_called_as_the_person_called_it(monkeypatch, argv, on_path, says):
    monkeypatch.setattr(sys, "argv", [argv])
    monkeypatch.setattr("shutil.which", lambda _name: on_path)
    assert show.called() == says
