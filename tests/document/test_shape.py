"""What both kinds of document have in common."""

import pytest
from pydantic import ValidationError

from thruline.document.rig_shape import CableShape, UnitShape
from thruline.document.shape import Size


def test_keys_are_written_with_hyphens() -> None:
    unit = UnitShape.model_validate({"id": "a", "chart": "b", "sent-on": 3})
    assert unit.sent_on == 3


@pytest.mark.parametrize("key", ["sent_on", "sentOn", "Sent-On"])
def test_no_other_writing_of_a_key_is_taken(key: str) -> None:
    with pytest.raises(ValidationError):
        UnitShape.model_validate({"id": "a", "chart": "b", key: 3})


def test_a_key_that_is_a_word_of_the_language_loses_its_tail() -> None:
    cable = CableShape.model_validate({"from": "a.out", "to": "b.in", "ends": "din5/din5"})
    assert cable.from_ == "a.out"


@pytest.mark.parametrize("name", ["Delay", "delay_2", "-delay", "delay--2", "d" * 41, ""])
def test_ids_are_small_letters_digits_and_single_hyphens(name: str) -> None:
    with pytest.raises(ValidationError):
        UnitShape.model_validate({"id": name, "chart": "b"})


def test_types_are_not_bent() -> None:
    with pytest.raises(ValidationError):
        Size.model_validate({"width": "120", "depth": 95})
