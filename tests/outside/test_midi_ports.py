import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.errors import WorldFailed
from thruline.outside import midi_ports
from thruline.outside.midi_ports import Stamps, SystemPorts
from thruline.outside.wall_clock import SystemClock


def test_without_the_library_it_is_said_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "rtmidi", None)
    with pytest.raises(WorldFailed, match=r"pip install 'thruline\[ports\]'"):
        SystemPorts(SystemClock())


def test_without_a_system_it_is_said_what_to_start(monkeypatch, tmp_path, capfd):
    pytest.importorskip("rtmidi", reason="the port library is not installed")
    monkeypatch.setattr(midi_ports, "SEQUENCER", tmp_path / "none")
    monkeypatch.setenv("JACK_DEFAULT_SERVER", "no-such-server")
    if sys.platform != "linux":
        pytest.skip("there is always a system here")
    with pytest.raises(WorldFailed, match=r"modprobe snd-seq.*JACK"):
        SystemPorts(SystemClock())
    assert capfd.readouterr().err == "", "what the system's libraries print is for nobody"


gaps = st.lists(st.integers(0, 2_000_000), min_size=1, max_size=60)


@given(gaps, st.integers(0, 10**9), st.data())
def test_a_message_is_never_stamped_after_it_was_fetched(since, begin, data):
    stamps, true_us, last, fetched = Stamps(), begin, 0, 0
    for gap in since:
        true_us += gap
        fetched = max(fetched, true_us + data.draw(st.integers(0, 5_000)))
        found = stamps.stamp(gap, fetched)
        assert max(last, true_us) <= found <= fetched
        last = found


def test_lags_of_fetching_do_not_show():
    stamps = Stamps()
    lags = [0, 900, 4000, 20, 3000]
    found = [stamps.stamp(1000, 1000 * n + lag) for n, lag in enumerate(lags, 1)]
    assert found == [1000, 2000, 3000, 4000, 5000]
