import pytest

from thruline.app.learn_said import SaidUnit, said_pedal, said_preset, said_unit
from thruline.base.errors import CannotUse


def test_what_a_person_writes():
    assert said_unit("3=delay:bramley-delay") == (3, SaidUnit("delay", "bramley-delay"))
    assert said_unit("3=bramley-delay") == (3, SaidUnit("bramley-delay", "bramley-delay"))
    assert said_unit("16=hall:") == (16, SaidUnit("hall", None))
    assert said_preset("12=Word from = coast") == (12, "Word from = coast")
    assert said_pedal("Swell=exp-1") == ("Swell", "exp-1")


@pytest.mark.parametrize(
    ("read", "words"),
    [
        (said_unit, ["", "3", "0=a:b", "17=a:b", "x=a:b", "3=:b"]),
        (said_preset, ["", "12", "12=", "Balcony=12"]),
        (said_pedal, ["", "Swell", "=exp-1", "Swell="]),
    ],
)
def test_what_makes_no_sense_is_answered_with_an_example(read, words):
    for word in words:
        with pytest.raises(CannotUse, match="="):
            read(word)
