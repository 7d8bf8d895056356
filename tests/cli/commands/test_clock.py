import pytest

from tests.cli.running import ran
from tests.wires import kinds


@pytest.fixture
def capture(tmp_path):
    file = tmp_path / "a.cap"
    rows = "".join(f"{turn * 25_000} 1 F8\n" for turn in range(60))
    file.write_text(f"thruline capture 1\nline 1 USB\n{rows}")
    return file


def test_a_capture(capsys, capture):
    done = ran(capsys, "clock", "--replay", capture)
    assert done.code == 0
    assert done.out.startswith("USB: 100.00 bpm over 60 clocks")
    assert ran(capsys, "clock", "--replay", capture, "--json").json["beats"][0]["bpm"] == 100


def test_no_clock(capsys, tmp_path):
    (tmp_path / "a.syx").write_bytes(b"\xf8")
    done = ran(capsys, "clock", "--replay", tmp_path / "a.syx")
    assert (done.code, "no clock to speak of" in done.out) == (1, True)
    assert ran(capsys, "clock").code == 2


@kinds.IN_REAL_TIME
def test_made_and_measured_over_a_port(capsys, tmp_path):
    with kinds.jack(tmp_path) as kind:
        told = ran(capsys, "clock", "--out", "hears", "--bpm", "240", "--for", "1", "--json").json
        assert told["beats"][0]["bpm"] == pytest.approx(240, rel=0.05)
        assert kinds.heard(kind, 96) == b"\xf8" * 96
        assert ran(capsys, "clock", "--in", "speaks", "--for", "1").code == 1
