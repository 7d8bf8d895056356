"""What was sent, for other programs and for people."""

from collections.abc import Iterator, Sequence

from thruline.app.frame import Json, answer
from thruline.app.send import Shows, Step
from thruline.base.measures import shown_ms
from thruline.midi.words import in_hex


def step_rows(step: Step) -> Iterator[str]:
    """A step in words: each message with its moment, then what the units must show."""
    count = len(step.messages)
    yield f"{step.title}: {count} {'message' if count == 1 else 'messages'}"
    for message, meaning in zip(step.messages, step.meanings, strict=True):
        yield f"  {shown_ms(message.at_us):>9}  {meaning.says}   [{in_hex(message.data)}]"


def shows_rows(shows: Sequence[Shows]) -> Iterator[str]:
    """What each unit must show now."""
    for one in shows:
        yield f"  look: {one.says}"


def step_json(step: Step) -> Json:
    """One step, for other programs."""
    return {
        "title": step.title,
        "messages": [
            {"at_us": one.at_us, "bytes": in_hex(one.data), "says": meaning.says}
            for one, meaning in zip(step.messages, step.meanings, strict=True)
        ],
        "shows": [
            {
                "unit": one.unit.id,
                "program": one.program,
                "controls": [{"name": name, "shown": value} for name, value in one.controls],
                "trouble": list(one.trouble),
                "says": one.says,
            }
            for one in step.shows
        ],
    }


def send_json(steps: Sequence[Step], *, ports: Sequence[str], sent: bool) -> Json:
    """Everything that was sent or would be."""
    return answer("send", ports=list(ports), sent=sent, steps=[step_json(one) for one in steps])
