import threading

import pytest

from tests.cli.running import ran
from tests.samples.reading import ORCHARD
from tests.wires import kinds

CAPTURE = """thruline capture 1
line 1 left
0 1 F8
2000 1 C2 33
3000 1 B2 34
4000 1 gone left
"""


@pytest.fixture
def capture(tmp_path):
    file = tmp_path / "a.capture"
    file.write_text(CAPTURE)
    return file


def test_a_capture_is_shown_again(capsys, capture):
    done = ran(capsys, "listen", ORCHARD, "--replay", capture, "--hide", "clock")
    assert done.code == 0
    rows = done.out.splitlines()
    assert "left: feet -> delay: " in rows[0]
    assert rows[0].endswith("[C2 33]")
    assert "MALFORMED" in rows[1]
    assert 'port "left" is gone' in rows[2]


def test_json(capsys, capture):
    told = ran(capsys, "listen", "--replay", capture, "--json").json
    assert (told["answers"], told["log"], len(told["came"])) == ("listen", None, 4)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "name a port to listen to"),
        (("--replay", "none"), "none is not there"),
        (("--replay", ORCHARD), "is no capture"),
        (("--replay", "{capture}", "--only", "dealy"), "is no unit, line or kind"),
        (("--port", "=x"), "is no line"),
    ],
)
def test_what_cannot_be_used(capsys, capture, words, says):
    words = [str(word).format(capture=capture) for word in words]
    done = ran(capsys, "listen", *words)
    assert done.code == 2
    assert says in done.err


@kinds.IN_REAL_TIME
def test_live_with_a_log(capsys, tmp_path):
    with kinds.jack(tmp_path) as kind:
        log = tmp_path / "log"

        def speak():
            kinds.begun(log)
            for data in (b"\xc2\x33", b"\xb2\x34\x40"):
                kind.says(data)

        speaker = threading.Thread(target=speak)
        speaker.start()
        done = ran(capsys, "listen", ORCHARD, "--port", "feet.midi-out-1=speaks", "--log", log,
                   "--for", "3")  # fmt: skip
        speaker.join()
        assert done.code == 0
        assert "feet.midi-out-1: feet -> delay: Mix 50 %" in done.out
        again = ran(capsys, "listen", ORCHARD, "--replay", log)
        assert again.out == done.out
        there = ran(capsys, "ports")
        assert "peer:speaks" in there.out
        assert ran(capsys, "listen", "--port", "no such").code == 2
