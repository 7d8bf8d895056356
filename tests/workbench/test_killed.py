"""The server is killed amid edits and started again: nothing that was accepted is lost."""

import threading

import pytest

from thruline.desk_wiring import keeping_for
from thruline.document.read import read
from tools.running import Running


@pytest.mark.parametrize("after_s", [0.15, 0.3, 0.5])
def test_what_was_accepted_is_there_after_a_kill(folder, after_s):
    file = folder / "good.rig.toml"
    server = Running(file)
    seen = server.act("edit", edits=[edit(0)], seen=1)["revision"]
    timer = threading.Timer(after_s, server.stop)
    timer.start()
    accepted = 0
    while (told := server.act("edit", edits=[edit(accepted + 1)], seen=seen)) is not None:
        accepted, seen = accepted + 1, told["revision"]
    timer.join()
    text, data = read(file.read_bytes(), file=str(file))
    assert int(data["rig"]["about"].split()[1]) in (accepted, accepted + 1)
    again = Running(file)
    try:
        before = again.act("undo")
        assert before is not None
        assert read(file.read_bytes(), file="x")[0] != text
        assert again.act("redo") is not None
        assert file.read_text() == text
    finally:
        again.stop()
    assert keeping_for(file).revisions.recall().now >= accepted


def edit(value):
    return {"do": "set", "address": "rig.about", "value": f"edit {value}"}
