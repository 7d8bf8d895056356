import io

import pytest

from tests.cli.running import ran
from tests.samples.reading import AS_FOUND, ORCHARD
from tests.wires import kinds
from thruline.app.send import CAUTION


def answers(monkeypatch, *said):
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{one}\n" for one in said)))


def test_try_sends_nothing(capsys):
    done = ran(capsys, "send", ORCHARD, 7, "--try")
    assert done.code == 0
    assert done.err == ""
    assert "[C2 33]" in done.out
    assert "look: Bramley Delay now shows program 11B" in done.out
    assert ran(capsys, "send", AS_FOUND, 5, "--try").code == 1


@kinds.IN_REAL_TIME
def test_a_preset_goes_out_after_the_caution(capsys, monkeypatch, tmp_path):
    with kinds.jack(tmp_path) as kind:
        told = ran(capsys, "send", ORCHARD, 7, "--port", "hears", "--yes", "--json")
        whole = [bytes.fromhex(one["bytes"]) for one in told.json["steps"][0]["messages"]]
        assert CAUTION in told.err
        assert kinds.heard(kind, sum(map(len, whole))) == b"".join(whole)
        answers(monkeypatch, "no")
        refused = ran(capsys, "send", ORCHARD, 7, "--port", "hears")
        assert refused.code == 130
        answers(monkeypatch, "yes", "yes", "no")
        steps = ran(capsys, "send", ORCHARD, 7, "--port", "hears", "--step")
        assert steps.code == 130
        assert steps.out.count("message") == 2, "two units, and then the person saw otherwise"
        kinds.heard(kind, 1000, seconds=0.3)
        assert ran(capsys, "send", ORCHARD, "--panic", "--port", "hears").code == 0
        assert b"\xb2\x78\x00\xb2\x7b\x00" in kinds.heard(kind, 60)
        sweep = ran(
            capsys, "send", ORCHARD, "Swell", "--port", "hears", "--yes", "--seconds", "0.5"
        )
        assert sweep.code == 0
        assert len(kinds.heard(kind, 100)) > 50


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "say what to send"),
        (("7",), "name a port to send to"),
        (("99", "--try"), "there is no preset 99"),
        (("Swel", "--try"), 'did you mean "Swell"'),
        (("Swell", "--try"), "--try is for presets"),
        (("--panic",), "name a port"),
    ],
)
def test_what_cannot_be_used(capsys, words, says):
    done = ran(capsys, "send", ORCHARD, *words)
    assert done.code == 2
    assert says in done.err
