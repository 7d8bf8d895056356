from tests.samples.reading import ORCHARD
from thruline.app.send import preset_step
from thruline.app.send_answer import send_json, shows_rows, step_rows
from thruline.proof.case import Case
from thruline.wiring import open_file


def test_words_and_json_say_the_same():
    step = preset_step(Case(open_file(ORCHARD).rig), 7)
    rows = [*step_rows(step), *shows_rows(step.shows)]
    told = send_json([step], ports=["USB"], sent=True)
    assert rows[0] == f'preset 7 "Balcony": {len(step.messages)} messages'
    (only,) = told["steps"]
    assert len(rows) == 1 + len(only["messages"]) + len(only["shows"])
    for row, message in zip(rows[1:], only["messages"], strict=False):
        assert message["says"] in row
        assert f"[{message['bytes']}]" in row
    assert [row.removeprefix("  look: ") for row in rows[-len(only["shows"]) :]] == [
        one["says"] for one in only["shows"]
    ]
