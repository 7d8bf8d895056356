import threading

from tests.cli.running import ran
from tests.samples.reading import ORCHARD
from tests.wires import kinds

REPLY = bytes.fromhex("F07E0006027D0300010301000000F7")


def test_from_a_capture(capsys, tmp_path):
    (tmp_path / "a.syx").write_bytes(REPLY)
    told = ran(capsys, "identify", ORCHARD, "--replay", tmp_path / "a.syx", "--json").json
    assert told["answered"][0]["units"] == ["delay"]
    (tmp_path / "b.syx").write_bytes(b"\xc0\x01")
    assert "proves nothing" in ran(capsys, "identify", ORCHARD, "--replay", tmp_path / "b.syx").out
    assert ran(capsys, "identify", ORCHARD).code == 2


@kinds.IN_REAL_TIME
def test_over_a_port(capsys, tmp_path):
    with kinds.jack(tmp_path) as kind:

        def unit():
            if kinds.heard(kind, 6) == bytes.fromhex("F07E7F0601F7"):
                kind.says(REPLY)

        answering = threading.Thread(target=unit)
        answering.start()
        done = ran(capsys, "identify", ORCHARD, "--port", "hears", "--back", "speaks")
        answering.join()
    assert done.out.startswith("delay: maker 7D")
