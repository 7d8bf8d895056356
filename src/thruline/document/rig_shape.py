"""The shape of a rig, key by key: a board as it stands, and all that is asked of it."""

from typing import Annotated, Literal

from pydantic import ConfigDict, Field

from thruline.document.odds_shape import OddsShape
from thruline.document.shape import (
    ChannelNumber,
    Contact,
    Format,
    Id,
    LongText,
    Shape,
    ShortText,
    Size,
)

SocketRef = Annotated[
    str,
    Field(
        pattern=r"^[a-z0-9-]+\.[a-z0-9-]+$",
        description="A unit's id, a dot, and the id of one of its sockets.",
        examples=["delay.midi-in"],
    ),
]
UnitId = Annotated[Id, Field(examples=["delay"])]
Written = int | float | str | bool
"""A value as a musician writes it: 64, "50%", "350 ms", "dotted eighth", "on"."""


class RigHead(Shape):
    """What the board is, and which unit recalls its presets."""

    name: Annotated[ShortText, Field(examples=["Pit board"])]
    controller: Annotated[Id, Field(examples=["feet"])]
    about: LongText = ""
    board: Annotated[Size | None, Field(description="The board's own size.")] = None
    slowest_change_ms: Annotated[
        int, Field(ge=1, le=10_000, description="A change of preset may take this long at most.")
    ] = 250


class PlaceShape(Shape):
    """Where a unit stands on the board: its left back corner in mm from the left and the back.

    It is turned clockwise about that corner, in degrees.
    """

    x: Annotated[int, Field(ge=-5000, le=5000)]
    y: Annotated[int, Field(ge=-5000, le=5000)]
    turn: Annotated[int, Field(ge=0, le=359)] = 0


class UnitShape(Shape):
    """One box on the board."""

    id: UnitId
    chart: Annotated[Id, Field(examples=["bramley-delay"])]
    name: ShortText | None = None
    channel: Annotated[
        ChannelNumber | None,
        Field(
            description="The channel the unit is set to. Left out, it is taken to be on its "
            "chart's factory channel, and advice says so; where the chart gives none, nothing can "
            "be sent to it."
        ),
    ] = None
    sent_on: Annotated[
        ChannelNumber | None,
        Field(description="The channel the controller uses for it, when that is another one."),
    ] = None
    sent_over: Annotated[
        Id | None,
        Field(
            description="The MIDI output of the controller over which it is addressed, where the "
            "controller chooses one. Left out, it is the one that leads to the unit.",
            examples=["midi-out-2"],
        ),
    ] = None
    settings: Annotated[dict[Id, str], Field(examples=[{"midi-out": "thru"}])] = {}
    place: PlaceShape | None = None
    odds: Annotated[
        list[OddsShape],
        Field(description="Where this very unit fails otherwise than its chart says."),
    ] = []
    about: LongText = ""


class CableShape(Shape):
    """One cable, from an output to an input."""

    from_: SocketRef
    to: SocketRef
    ends: Annotated[
        str,
        Field(
            pattern=r"^[a-z0-9.-]+/[a-z0-9.-]+$",
            description="The plugs: the one at `from`, a stroke, the one at `to`.",
            examples=["din5/din5"],
        ),
    ]
    wiring: Annotated[
        Literal["straight", "crossed", "type-a", "type-b"] | dict[Contact, Contact],
        Field(
            description="How contacts are joined; straight when left out. Between a DIN plug and a "
            "jack plug that is taken as type A, the standard's adapter lead, and advice says so."
        ),
    ] = "straight"
    length: Annotated[int | None, Field(ge=10, le=100_000, examples=[300])] = None


class AudioShape(Shape):
    """The way of the sound, from the instrument to the amplifier."""

    path: Annotated[list[str], Field(examples=[["guitar", "feet.loop-1[drive]", "delay", "amp"]])]


class PresetShape(Shape):
    """One preset. Every further key is a unit's id with what the preset wants of it."""

    model_config = ConfigDict(extra="allow")
    __pydantic_extra__: dict[str, dict[str, Written] | Written]

    number: Annotated[int, Field(ge=0, le=16384, examples=[12])]
    name: Annotated[ShortText, Field(examples=["Overture"])]
    about: LongText = ""
    messages: Annotated[
        list[str] | None,
        Field(
            description="What the controller's memory really holds for this preset, if it is not "
            "what the goals ask for; numbers as its screen shows them. Behind a message may stand "
            'the output chosen for it: "3: program 24 over midi-out-2".',
            examples=[["3: program 24", "3: control 14 = 64", "wait 40 ms"]],
        ),
    ] = None


CurvePoint = Annotated[
    list[Annotated[int, Field(ge=0, le=100)]],
    Field(min_length=2, max_length=2, description="Travel and share, both in percent."),
]


class MoveShape(Shape):
    """One control that a sweep moves."""

    unit: UnitId
    control: Annotated[Id, Field(examples=["mix"])]
    heel: Annotated[Written, Field(examples=["0%"])]
    toe: Annotated[Written, Field(examples=["100%"])]
    curve: Annotated[
        Literal["linear", "audio", "late", "s"] | Annotated[list[CurvePoint], Field(min_length=2)],
        Field(
            description="A named curve, or points of travel and share, both in percent.",
            examples=["s", [[0, 0], [70, 20], [100, 100]]],
        ),
    ] = "linear"


class SweepShape(Shape):
    """What an expression pedal does on some presets."""

    name: Annotated[ShortText, Field(examples=["Swell"])]
    pedal: Annotated[SocketRef, Field(examples=["feet.exp"])]
    presets: Annotated[Literal["all"] | list[int], Field(examples=["all", [11, 12]])]
    moves: Annotated[list[MoveShape], Field(min_length=1)]


class SongShape(Shape):
    """One number of the set: its tempo and the presets in the order they come."""

    name: Annotated[ShortText, Field(examples=["Night bus"])]
    tempo: Annotated[int, Field(ge=20, le=400, examples=[96])] | None = None
    presets: Annotated[list[int], Field(min_length=1, examples=[[11, 12, 14]])]


class AcceptShape(Shape):
    """A finding that the people concerned have decided to live with."""

    finding: Annotated[str, Field(min_length=3, max_length=300)]
    reason: Annotated[str, Field(min_length=3, max_length=300)]


class RigShape(Shape):
    """A whole rig document."""

    format: Format
    rig: RigHead
    unit: Annotated[list[UnitShape], Field(min_length=1)]
    cable: list[CableShape] = []
    audio: AudioShape | None = None
    preset: list[PresetShape] = []
    sweep: list[SweepShape] = []
    song: list[SongShape] = []
    accept: list[AcceptShape] = []
