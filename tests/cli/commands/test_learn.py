import io
import json
import sys

import pytest

from tests.cli.running import ran
from tests.learn.boards import DAMAGED, heard
from thruline.audit.capture_text import write_capture
from thruline.wiring import demo_texts


@pytest.fixture
def capture(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "heard.capture").write_text(write_capture(heard(3, DAMAGED)), encoding="utf-8")
    return "heard.capture"


def test_from_a_capture_to_a_document_that_loads_and_proves(capsys, capture, tmp_path):
    done = ran(capsys, "learn", "old", capture, "--unit", "3=delay:bramley-delay", "--json")
    assert done.code == 0
    told = json.loads(done.out)
    assert told["written"] == "old.rig.toml"
    assert (tmp_path / told["charts"][0]).exists()
    assert ran(capsys, "prove", "old.rig.toml").code in (0, 1)
    assert ran(capsys, "trace", "old.rig.toml", "7").code in (0, 1)
    text = (tmp_path / "old.rig.toml").read_text(encoding="utf-8")
    assert "# unknown: how the units are joined" in text


def test_a_board_and_what_was_heard(capsys, capture, tmp_path):
    text = demo_texts()[1]
    head = text[: text.index("# --- presets:")]
    (tmp_path / "bare.rig.toml").write_text(head, encoding="utf-8")
    done = ran(
        capsys, "learn", "new.rig.toml", capture, "--board", "bare.rig.toml", "--pedal",
        "Volume=exp-2",
    )  # fmt: skip
    assert done.code == 0
    assert "24 presets from 72 presses" in done.out
    assert ran(capsys, "prove", "new.rig.toml").code == 0


def test_questions_are_put_where_they_are_asked_for(capsys, capture, monkeypatch):
    monkeypatch.setattr(sys, "stdin", io.StringIO("\n" * 60))
    done = ran(capsys, "learn", "old", capture, "--ask")
    assert done.code == 0
    assert "Which chart has the unit? (Enter: unknown)" in done.err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["a"], "name captures to learn from, or a port"),
        (["a", "none.capture"], "none.capture"),
        (["a", "heard.capture", "--unit", "3"], "write a channel, its id and its chart"),
        (["a", "heard.capture", "--controller", "braeburn-sex"], "braeburn-six"),
    ],
)
def test_what_cannot_be_used(capsys, capture, words, says):
    done = ran(capsys, "learn", *words)
    assert done.code == 2
    assert says in done.err
    assert done.out == ""


def test_charts_that_are_beside_it_stay(capsys, capture, tmp_path):
    first = ran(capsys, "learn", "a", capture, "--json").json
    mine = {place: f"# mine\n{(tmp_path / place).read_text()}" for place in first["charts"]}
    for place, text in mine.items():
        (tmp_path / place).write_text(text, encoding="utf-8")
    second = ran(capsys, "learn", "b", capture, "--json").json
    assert len(second["charts"]) == len(mine)
    assert not set(second["charts"]) & set(mine)
    assert {place: (tmp_path / place).read_text() for place in mine} == mine
    assert ran(capsys, "prove", "b.rig.toml").code in (0, 1)


def test_an_existing_document_stays(capsys, capture, tmp_path):
    (tmp_path / "old.rig.toml").write_text("mine", encoding="utf-8")
    assert ran(capsys, "learn", "old", capture).code == 2
    assert (tmp_path / "old.rig.toml").read_text(encoding="utf-8") == "mine"
