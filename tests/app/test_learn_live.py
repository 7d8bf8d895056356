from tests.bench.clocks import StepClock
from thruline.app.learn_live import Lessons
from thruline.audit.capture import Note, NoteKind
from thruline.bench.face import Chunk
from thruline.bench.listen import Session
from thruline.learn.learned import learn


class Late:
    """An input on which something comes only after it was looked at once: a person is slow."""

    name = "USB"

    def __init__(self, clock):
        self.clock, self.coming, self.looked = clock, [], False

    def press(self, data):
        self.coming, self.looked = data, False

    def take(self):
        if not self.looked:
            self.looked = True
            return [], ""
        found, self.coming = self.coming, []
        return [Chunk(self.clock.now_us(), one) for one in found], ""

    def close(self):
        pass


def test_a_person_says_what_comes_and_it_is_heard():
    clock = StepClock()
    port = Late(clock)
    session = Session([port], clock, lines=["USB"])
    lessons = Lessons(session, patience_us=2_000_000)

    def written():
        port.press([b"\xc2\x05"])
        yield "7 Balcony"
        yield "nonsense"
        port.press([bytes((0xB2, 52, place)) for place in range(40)])
        yield "sweep Swell"
        yield "8"
        yield ""
        raise AssertionError("nobody reads on after an empty row")

    assert [*lessons.heard(written())] == [
        "7 Balcony: 1 message came",
        '"nonsense" is neither a number nor "sweep NAME"',
        "sweep Swell: 40 messages came",
        "8: nothing came",
    ]
    kinds = [one.kind for one in lessons.capture.entries if isinstance(one, Note)]
    assert kinds == [NoteKind.PRESS, NoteKind.SWEEP, NoteKind.PRESS, NoteKind.SKIP]
    found = learn([lessons.capture])
    assert [one.name for one in found.sweeps] == ["Swell"]
    assert [(one.number, one.name) for one in found.presets] == [(7, "Balcony")]
