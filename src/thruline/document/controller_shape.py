"""The shape of a chart's part about foot controllers: loops, pauses, pedals, presets, outputs."""

from typing import Annotated, Literal

from pydantic import Field

from thruline.document.shape import Id, Shape


class LoopShape(Shape):
    """A relay loop of a controller or switcher: in the path or out of it."""

    id: Id
    send: Id
    return_: Id


class PausesShape(Shape):
    """The pauses a controller can put between messages."""

    step_ms: Annotated[int, Field(ge=1, le=1000, examples=[1])]
    longest_ms: Annotated[int, Field(ge=1, le=10_000, examples=[500])]
    count: Annotated[int | None, Field(ge=1, description="Pauses in one preset at most.")] = None


class PedalInputShape(Shape):
    """What a controller can do with one expression input."""

    socket: Id
    moves: Annotated[int, Field(ge=1, le=64, description="Controls that one pedal can move.")] = 1
    curves: list[Literal["linear", "audio", "late", "s", "points"]] = ["linear"]
    reverse: Annotated[bool, Field(description="Heel may be above toe.")] = True
    interval_ms: Annotated[int | None, Field(ge=1, le=100, description="Least time apart.")] = None
    on_recall: Annotated[bool, Field(description="Sends the pedal's place on recall.")] = False
    calibrates: Annotated[bool, Field(description="Learns the ends of a pedal's travel.")] = True
    wiring: Literal["wiper-on-tip", "wiper-on-ring", "either"] = "wiper-on-tip"


class ControllerShape(Shape):
    """What a foot controller can keep and do."""

    presets: Annotated[int, Field(ge=1, le=16384, examples=[128])]
    first_preset: Annotated[int, Field(ge=0, le=999)] = 1
    name_length: Annotated[int | None, Field(ge=1, le=64, examples=[12])] = None
    messages: Annotated[int | None, Field(ge=1, le=512, description="In one preset.")] = None
    order: Annotated[
        Literal["free", "by-unit", "programs-first"],
        Field(description="Whether the order of messages can be chosen, or how it is fixed."),
    ] = "free"
    routing: Annotated[
        Literal["all", "by-message", "by-unit"],
        Field(
            description="Which of several MIDI outputs a message leaves by: all of them, the one "
            "chosen when it is programmed, or the one chosen once for its unit."
        ),
    ] = "all"
    pauses: PausesShape | None = None
    programs_from: Annotated[int, Field(ge=0, le=1, description="First program on screen.")] = 0
    sends: list[Literal["program", "bank", "control", "control-14", "parameter", "raw"]] = [
        "program",
        "bank",
        "control",
    ]
    running_status: bool | None = None
    gap_us: Annotated[int, Field(ge=0, le=100_000, description="Its own time a message.")] = 0
