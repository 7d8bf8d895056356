import sys

import pytest

from tests.cli.running import ran
from tests.wires import kinds


@kinds.IN_REAL_TIME
def test_what_there_is(capsys, tmp_path):
    with kinds.jack(tmp_path):
        told = ran(capsys, "ports", "--json").json
        assert "peer:speaks" in told["inputs"]
        assert "peer-ear:hears" in told["outputs"]


def test_without_the_library(capsys, monkeypatch):
    monkeypatch.setitem(sys.modules, "rtmidi", None)
    done = ran(capsys, "ports")
    assert done.code == 3
    assert "pip install 'thruline[ports]'" in done.err


def test_without_a_system(capsys, monkeypatch, tmp_path):
    pytest.importorskip("rtmidi", reason="the port library is not installed")
    monkeypatch.setattr("thruline.outside.midi_ports.SEQUENCER", tmp_path / "none")
    monkeypatch.setenv("JACK_DEFAULT_SERVER", "no-such-server")
    if sys.platform != "linux":
        pytest.skip("there is always a system here")
    assert ran(capsys, "ports").code == 3
