from tests.app.test_learn import LEARNED, SHELVES, bare_board
from thruline.app.learn_questions import asked
from thruline.app.learn_said import Said, SaidUnit


class Person:
    """Answers questions by what they begin with, and remembers them."""

    def __init__(self, answers):
        self.answers, self.questions = answers, []

    def __call__(self, question):
        self.questions.append(question)
        found = next((one for one in self.answers if question.startswith(one)), None)
        return self.answers[found].pop(0) if found and self.answers[found] else ""


def test_a_person_is_asked_for_what_is_open_and_offered_what_fits():
    person = Person(
        {
            "channel 3": ["bramley-delay"],
            "channel 5": ["pipin", ""],
            "There is no chart": ["pippin-reverb"],
            "What do you call it": ["", "hall"],
            "Which chart is the controller's": ["braeburn-six"],
            "What is preset 7 called": ["Balcony"],
        }
    )
    said = asked(LEARNED, Said(), None, shelves=SHELVES, ask=person)
    assert said.units == {
        3: SaidUnit("delay", "bramley-delay"), 5: SaidUnit("hall", "pippin-reverb"),
    }  # fmt: skip
    assert said.controller == "braeburn-six"
    assert said.presets == {7: "Balcony"}
    offered = next(one for one in person.questions if one.startswith("channel 3"))
    assert "What comes would fit bramley-delay" in offered


def test_what_is_known_is_not_asked():
    person = Person({})
    said = Said(presets=dict.fromkeys(range(1, 25), "A"))
    assert asked(LEARNED, said, bare_board(), shelves=SHELVES, ask=person) == said
    assert person.questions == []
