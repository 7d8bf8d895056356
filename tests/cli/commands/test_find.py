import io
import json
from pathlib import Path

import pytest

from tests.cli.running import ran
from tests.samples.reading import ORCHARD
from thruline.desk_wiring import kept_searches
from thruline.wiring import open_file


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    monkeypatch.delenv("THRULINE_STORE", raising=False)
    return tmp_path


@pytest.fixture
def says(monkeypatch):
    return lambda *rows: monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(rows) + "\n"))


def objects(out):
    return [json.loads(row) for row in out.splitlines()]


def test_a_dialogue_in_text(capsys, says):
    says("3", "w", "b", "b", "", "purple", "n", "q")
    done = ran(capsys, "find", ORCHARD)
    assert done.code == 1
    assert "Which units are not as they should be?" in done.out
    assert "ruled out" in done.out
    assert "1. Press preset" in done.out
    assert "there is no answer to take back" in done.err
    assert "type an answer: its number or its first letters" in done.err
    assert '"purple" is none of the units' in done.err


def test_a_dialogue_in_rows_of_json(capsys, says):
    says(
        '{"symptom": "echo does nothing"}', '{"answer": "cannot"}', '{"back": 1}',
        '{"check": "power echo", "answer": "dark"}', '{"without": 0}', "nonsense", "[]", '{"x": 1}',
        '{"back": 0}', '{"without": 9}', '{"check": "kick it", "answer": "1"}',
    )  # fmt: skip
    done = ran(capsys, "find", ORCHARD, "--json")
    told = objects(done.out)
    assert len(told) == 12
    assert all(one["format"] == 1 and one["answers"] == "find" for one in told)
    assert told[0]["check"]["kind"] == "glance"
    steps = told[5]["search"]["steps"]
    assert [step["on"] for step in steps] == ["power echo"]
    assert all("trouble" in one for one in told[6:])


def test_a_search_is_kept_and_gone_on_with(capsys, says, here):
    says("3", "q")
    ran(capsys, "find", ORCHARD, "--place", "stage", "--keep", "search.json")
    kept = json.loads((here / "search.json").read_text())
    assert kept["place"] == "stage"
    assert len(kept["steps"]) == 1
    says("")
    done = ran(capsys, "find", ORCHARD, "--resume", "search.json", "--json")
    assert objects(done.out)[0]["search"] == kept


def test_a_whole_search_ends_well(capsys, says):
    rows = ['{"symptom": "echo is dark"}', '{"symptom": "echo is dark"}']
    says(
        *rows,
        '{"check": "supply echo", "answer": "nothing"}',
        '{"answer": "mended"}',
        '{"check": "power echo", "answer": "good"}',
        '{"answer": "none"}',
        '{"answer": "always"}',
    )
    done = ran(capsys, "find", ORCHARD, "--json")
    told = objects(done.out)
    assert told[3]["state"] == "mend"
    assert told[3]["mend"]["kind"] == "no-power"


def test_symptoms_and_findings_to_begin_with(capsys, says):
    says("q")
    done = ran(capsys, "find", ORCHARD, "--from-proof", "--symptom", "delay does nothing")
    assert done.code == 1
    assert "Bramley Delay" in done.out


@pytest.mark.parametrize(
    ("words", "trouble"),
    [
        (("--symptom", "hello"), "does not say which unit"),
        (("--resume", "none.json"), "is not there"),
        (("--place", "moon"), "bench"),
    ],
)
def test_what_cannot_be_used(capsys, says, words, trouble):
    says("q")
    done = ran(capsys, "find", ORCHARD, *words)
    assert done.code == 2
    assert trouble in done.err


OTHER = ["[1]", "{}", '{"bands": []}', '{"place": "bench", "steps": 3}', "[" * 200_000, ""]
"""What a file may hold that is no search."""


@pytest.mark.parametrize("held", OTHER)
@pytest.mark.parametrize("option", ["--resume", "--keep"])
def test_what_is_no_search_is_refused(capsys, says, here, *, option, held):
    (here / "other.json").write_text(held)
    says("3", "q")
    done = ran(capsys, "find", ORCHARD, option, "other.json")
    assert (done.code, done.out) == (2, "")
    assert "other.json holds no search" in done.err
    assert (here / "other.json").read_text() == held


@pytest.mark.parametrize("name", ["search.txt", "none/search.json", "."])
def test_a_place_where_no_search_can_be_kept_is_told_before_any_answer(capsys, says, name):
    says("3", "q")
    done = ran(capsys, "find", ORCHARD, "--keep", name)
    assert (done.code, done.out) == (2, "")


def test_a_row_nested_too_deep_is_no_row(capsys, says):
    says("[" * 200_000)
    told = objects(ran(capsys, "find", ORCHARD, "--json").out)
    assert "is not JSON" in told[1]["trouble"]


def test_the_card_as_text_page_and_json(capsys, here):
    done = ran(capsys, "find", ORCHARD, "--card", "--html", "card.html")
    assert done.code == 0
    assert "go to 2" in done.out
    assert "written to card.html" in done.out
    assert "<h2>1. Press" in (here / "card.html").read_text(encoding="utf-8")
    told = objects(ran(capsys, "find", ORCHARD, "--card", "--json").out)[0]
    assert told["card"][0]["number"] == 1


def test_a_doubtful_answer_can_be_tried_again(capsys, says):
    says("1", "r", "2", "q")
    done = ran(capsys, "find", ORCHARD, "--symptom", "pitch does nothing", "--keep", "kept.json")
    assert done.code == 1
    assert "(r)" not in done.out.partition("\n")[0]
    steps = [
        {"did": "answered", "on": "look pitch 3", "answer": "right"},
        {"did": "answered", "on": "channel pitch", "answer": "other"},
        {"did": "answered", "on": "entry pitch", "answer": "good"},
        {"did": "answered", "on": "look pitch 10", "answer": "right"},
    ]
    search = json.dumps({"place": "bench", "steps": steps})
    says(json.dumps({"search": json.loads(search)}))
    told = objects(ran(capsys, "find", ORCHARD, "--json").out)[-1]
    assert told["doubtful"] is not None
    Path("kept.json").write_text(search, encoding="utf-8")
    says("r", "2", "q")
    done = ran(capsys, "find", ORCHARD, "--resume", "kept.json", "--keep", "kept.json")
    assert "Try that again (r)" in done.out
    kept = json.loads(Path("kept.json").read_text(encoding="utf-8"))["steps"]
    assert len(kept) == 5
    assert kept[4]["on"] == kept[told["doubtful"]]["on"]


def test_a_search_is_in_the_record_unless_it_should_not_be(capsys, says, here):
    for more in (["--no-record"], []):
        says("3", "q")
        assert ran(capsys, "find", ORCHARD, *more).code == 1
        assert (here / "workshop" / "workshop.sqlite").exists() is not bool(more)
    (kept,) = kept_searches().listed()
    assert kept.rig == Path(ORCHARD).resolve().as_posix()
    assert kept.told[0].startswith("1. Press preset")


def test_a_symptom_is_told_and_corrected_in_the_dialogue(capsys, says):
    says("b 9", "b x", "b 1", "s echo one too high", "s nonsense", "q")
    done = ran(capsys, "find", ORCHARD, "--no-record", "--symptom", "echo does nothing")
    assert "“echo does nothing” is understood as: 1. Press preset" in done.out
    assert "b takes the last one back" in done.out
    assert "“echo one too high” is understood as: 1. Press preset" in done.out
    assert "there is no answer 9 to take back; they are 1 to 1" in done.err
    assert "there is no answer x" in done.err
    assert "does not say which unit does what" in done.err


def test_a_record_that_cannot_be_used_does_not_stop_a_search(capsys, says, monkeypatch):
    monkeypatch.setenv("THRULINE_STORE", "nonsense")
    says("q")
    done = ran(capsys, "find", ORCHARD)
    assert "Which units are not as they should be?" in done.out
    assert "the search goes on without the record" in done.err


def test_a_search_from_an_audit(capsys, says, here):
    rig = open_file(ORCHARD).rig
    fault = {"family": "channel", "on": ["echo"], "says": "", "look_at": ""}
    told = {"answers": "audit", "rig": rig.name, "causes": [{"odds": 0.99, "faults": [fault]}]}
    (here / "audit.json").write_text(json.dumps(told))
    says("")
    done = ran(capsys, "find", ORCHARD, "--from-audit", "audit.json", "--json")
    assert objects(done.out)[0]["suspects"][0]["id"] == "entry-other-channel@echo"
    (here / "audit.json").write_text("[]")
    assert ran(capsys, "find", ORCHARD, "--from-audit", "audit.json").code == 2


def test_a_page_for_a_colleague_is_written_at_the_end(capsys, says, here):
    says("1", "q")
    words = ("--symptom", "delay does nothing", "--report", "for-kim.md")
    done = ran(capsys, "find", ORCHARD, *words)
    assert "for-kim.md" in done.err
    text = (here / "for-kim.md").read_text(encoding="utf-8")
    assert "delay does nothing" in text
    assert "What would be tried next" in text
    says("q")
    refused = ran(capsys, "find", ORCHARD, "--report", "for-kim.doc")
    assert refused.code == 2
    assert "should end in" in refused.err
    assert not refused.out
