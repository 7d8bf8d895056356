from tests.cli.running import ran
from tests.samples.reading import ORCHARD


def test_a_port_or_a_try(capsys, tmp_path, monkeypatch):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path))
    (tmp_path / "a.syx").write_bytes(b"\xf0\x7d\x01\xf7")
    ran(capsys, "backup", ORCHARD, "delay", "--replay", tmp_path / "a.syx", "--name", "a")
    done = ran(capsys, "restore", ORCHARD, "delay", "a")
    assert done.code == 2
    assert "name the port to send to" in done.err
    assert (
        "verifies; nothing was sent" in ran(capsys, "restore", ORCHARD, "delay", "a", "--try").out
    )
