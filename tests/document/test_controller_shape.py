"""What a chart may say of a foot controller."""

import pytest
from pydantic import ValidationError

from thruline.document.controller_shape import ControllerShape, LoopShape, PausesShape


def test_every_output_carries_everything_when_nothing_is_said():
    assert ControllerShape.model_validate({"presets": 8}).routing == "all"


@pytest.mark.parametrize("routing", ["all", "by-message", "by-unit"])
def test_the_ways_of_choosing_an_output(routing):
    assert ControllerShape.model_validate({"presets": 8, "routing": routing}).routing == routing


@pytest.mark.parametrize(
    ("shape", "wrong"),
    [
        (ControllerShape, {"presets": 8, "routing": "by-channel"}),
        (ControllerShape, {"presets": 0}),
        (PausesShape, {"step-ms": 0, "longest-ms": 5}),
        (LoopShape, {"id": "a", "send": "b"}),
    ],
)
def test_what_cannot_be_is_refused(shape, wrong):
    with pytest.raises(ValidationError):
        shape.model_validate(wrong)
