import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.errors import WorldFailed
from thruline.outside.serial_lines import SerialLines, _spread
from thruline.outside.wall_clock import SystemClock


def test_without_the_library_it_is_said_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "serial", None)
    with pytest.raises(WorldFailed, match=r"pip install 'thruline\[ports\]'"):
        SerialLines(SystemClock())


def test_a_line_that_is_not_there(tmp_path):
    pytest.importorskip("serial", reason="the library for serial ports is not installed")
    lines = SerialLines(SystemClock())
    assert isinstance(lines.inputs(), tuple)
    with pytest.raises(WorldFailed, match="cannot be opened"):
        lines.open_output(str(tmp_path / "none"))


@given(st.binary(min_size=1, max_size=50), st.integers(0, 10**9), st.integers(0, 10**6))
def test_bytes_read_at_once_came_one_after_the_other(data, after, later):
    found = _spread(data, after_us=after, now_us=after + later)
    times = [one.at_us for one in found]
    assert b"".join(one.data for one in found) == data
    assert times == sorted(times)
    assert after <= times[0] <= times[-1] == after + later
