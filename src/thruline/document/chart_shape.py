"""The shape of a chart, key by key: all that is known of one model of unit.

A fact that the manual does not give is left out; whatever needs it then says that it cannot be
told, and never that all is well.
"""

from typing import Annotated, Literal

from pydantic import Field

from thruline.document.controller_shape import (
    ControllerShape,
    LoopShape,
    PedalInputShape,
)
from thruline.document.odds_shape import OddsShape
from thruline.document.power_shape import OutletShape, PowerShape, SupplyShape
from thruline.document.shape import (
    ChannelNumber,
    Contact,
    Format,
    Id,
    LongText,
    Seven,
    Shape,
    ShortText,
    Size,
)

Connector = Literal[
    "din5", "din7", "trs-2.5", "trs-3.5", "trs-6.35", "ts-3.5", "ts-6.35",
    "usb-a", "usb-b", "usb-c", "barrel-2.1", "barrel-2.5", "mains",
]  # fmt: skip
SocketKind = Literal[
    "midi-in", "midi-out", "midi", "usb", "expression-in", "expression-out",
    "switch-in", "switch-out", "audio-in", "audio-out", "power-in", "power-out",
]  # fmt: skip
Wiring = Literal["din", "type-a", "type-b", "ts", "tip-active", "ring-active"]
Way = Literal["thru-wire", "thru-soft", "merge", "own", "off"]
Traffic = Literal[
    "program", "control", "note", "clock", "real-time", "system-exclusive", "own-channel"
]
OnOff = Literal["on", "off"]


class ChartHead(Shape):
    """Which model this chart is about."""

    id: Annotated[Id, Field(examples=["bramley-delay"])]
    maker: Annotated[ShortText, Field(examples=["Bramley"])]
    model: Annotated[ShortText, Field(examples=["Delay"])]
    kind: Annotated[str, Field(min_length=1, max_length=40, examples=["delay"])]
    about: LongText = ""
    firmware: Annotated[str, Field(max_length=40, examples=["1.4"])] = ""


class Source(Shape):
    """Where a fact comes from, and who looked."""

    fact: Annotated[str, Field(max_length=200, examples=["settle"])]
    from_: Annotated[str, Field(max_length=200, examples=["manual, page 14"])]
    checked_by: Annotated[str, Field(max_length=80)] = ""


class SocketPlace(Shape):
    """Where a socket sits: on which side, and how far along it in mm from the left or the back."""

    side: Literal["back", "front", "left", "right", "top"]
    along: Annotated[int, Field(ge=0, le=5000, examples=[30])]


class SocketShape(Shape):
    """One socket of the unit."""

    id: Id
    kind: SocketKind
    connector: Connector
    marked: Annotated[
        str, Field(max_length=40, description="What is printed beside it.", examples=["MIDI OUT"])
    ] = ""
    wiring: Annotated[
        Wiring | None,
        Field(
            description="How MIDI lies on the contacts of a jack; left out, it is not known. DIN "
            "has only one."
        ),
    ] = None
    isolated: Annotated[bool | None, Field(description="A MIDI input with an opto-isolator.")] = (
        None
    )
    spare_power: Annotated[
        bool, Field(description="Power is fed over contacts that MIDI leaves unused.")
    ] = False
    place: SocketPlace | None = None


class Bond(Shape):
    """Two sockets of a passive unit joined inside, contact to contact (an adapter)."""

    from_: Id
    to: Id
    contacts: Annotated[dict[Contact, Contact], Field(examples=[{"4": "ring", "5": "tip"}])]


class OutputShape(Shape):
    """What a MIDI output does with what comes in."""

    socket: Id
    ways: Annotated[list[Way], Field(min_length=1, examples=[["thru-soft", "off"]])]
    from_: Annotated[
        list[Id] | None, Field(description="Inputs it forwards; all MIDI inputs when left out.")
    ] = None
    latency_us: Annotated[int | None, Field(ge=0, le=1_000_000, examples=[1100])] = None
    by: Literal["message", "byte"] = "message"
    blocks: Annotated[list[Traffic], Field(description="Traffic it never passes on.")] = []
    buffer_bytes: Annotated[int | None, Field(ge=1, le=1_000_000, examples=[256])] = None
    skew_ns: Annotated[
        int | None,
        Field(ge=0, le=50_000, description="Difference of its edge delays, ns.", examples=[1000]),
    ] = None
    running_status: Annotated[bool | None, Field(description="Leaves out repeated status.")] = None


Governs = Literal[
    "output", "program-receive", "control-receive", "clock-receive", "system-exclusive-receive",
    "omni", "clock-send", "program-send", "control-send", "expression-wiring",
    "outlet-voltage", "other",
]  # fmt: skip


class SettingShape(Shape):
    """One menu item of the unit that matters to MIDI."""

    id: Id
    name: ShortText
    values: Annotated[list[ShortText], Field(min_length=1, examples=[["thru", "out", "off"]])]
    factory: ShortText
    where: Annotated[ShortText, Field(description="Where to find it.", examples=["GLOBAL > MIDI"])]
    governs: Governs = "other"
    socket: Annotated[Id | None, Field(description="The output it governs.")] = None
    means: Annotated[dict[str, str], Field(
        description="What each value means: a way of forwarding, on or off.",
        examples=[{"thru": "thru-soft", "out": "own"}],
    )] = {}  # fmt: skip


class ChannelShape(Shape):
    """How the unit picks what is addressed to it."""

    allowed: Annotated[list[ChannelNumber], Field(min_length=1)] = list(range(1, 17))
    factory: ChannelNumber | None = None
    omni: Annotated[
        Literal["never", "always", "setting"],
        Field(description="Whether it can hear all channels."),
    ] = "never"
    occupies: Annotated[int, Field(ge=1, le=16, description="Channels in a row it takes.")] = 1
    where: Annotated[str, Field(max_length=80, examples=["hold A at power-up"])] = ""


class Digits(Shape):
    """One part of a program label: how many, what the first is called, how wide it is written."""

    count: Annotated[int, Field(ge=1, le=16384, examples=[64])]
    first: Annotated[int, Field(ge=0, le=999)] | Annotated[str, Field(pattern=r"^[A-Za-z]$")] = 1
    width: Annotated[int, Field(ge=1, le=5, description="Padded with noughts to this width.")] = 1


class SpecialProgram(Shape):
    """A program that stands outside the numbering: bypass, live, tuner."""

    label: Annotated[str, Field(min_length=1, max_length=20, examples=["BYP"])]
    program: Seven
    bank: Annotated[int, Field(ge=0, le=16383)] = 0


class ProgramsShape(Shape):
    """The labels that the display shows, and how each becomes bytes."""

    banks: Annotated[Digits | None, Field(description="The slow part of a label.")] = None
    slots: Annotated[Digits | None, Field(description="The fast part of a label.")] = None
    names: Annotated[list[ShortText] | None, Field(description="All labels, when named.")] = None
    order: Literal["bank-slot", "slot-bank"] = "bank-slot"
    separator: Annotated[str, Field(max_length=3, examples=["-"])] = ""
    first_wire: Annotated[Seven, Field(description="Program change number of the first label.")] = 0
    per_bank: Annotated[int, Field(ge=1, le=128, description="Programs in one MIDI bank.")] = 128
    first_bank: Annotated[int, Field(ge=0, le=16383)] = 0
    bank_select: Annotated[
        Literal["none", "msb", "lsb", "both"], Field(description="Which bank bytes it reads.")
    ] = "none"
    bank_after: Annotated[
        Literal["keeps", "clears"], Field(description="The bank after a program change.")
    ] = "keeps"
    special: list[SpecialProgram] = []


class Zone(Shape):
    """Wire values that mean one labelled choice."""

    label: ShortText
    low: Annotated[int, Field(ge=0, le=16383, examples=[0])]
    high: Annotated[int, Field(ge=0, le=16383, examples=[31])]


class ScaleShape(Shape):
    """What the display shows over the range of a control."""

    unit: Annotated[str, Field(max_length=8, examples=["ms"])]
    low: Annotated[float | int, Field(description="Shown at the lowest wire value.")]
    high: Annotated[float | int, Field(description="Shown at the highest wire value.")]
    law: Literal["linear", "log"] = "linear"
    decimals: Annotated[int, Field(ge=0, le=3)] = 0


class ControlShape(Shape):
    """One parameter that a control change reaches."""

    id: Id
    name: ShortText
    number: Annotated[int, Field(ge=0, le=16383, examples=[14])]
    message: Literal["cc", "cc14", "rpn", "nrpn"] = "cc"
    kind: Literal["range", "switch", "steps", "momentary", "toggle-any"] = "range"
    low: Annotated[int, Field(ge=0, le=16383)] = 0
    high: Annotated[int, Field(ge=0, le=16383)] = 127
    scale: ScaleShape | None = None
    zones: list[Zone] = []
    stored: Annotated[
        bool | None, Field(description="A program change sets it to what the program holds.")
    ] = None
    expression: Literal["good", "poor", "no"] | None = None
    power_up: Annotated[int | None, Field(ge=0, le=16383)] = None
    gain: Annotated[
        Literal["drive", "level", "none"],
        Field(description="Drive changes gain before a distortion, level the loudness after it."),
    ] = "none"


class SettleShape(Shape):
    """What a unit does while it loads a program."""

    ms: Annotated[int, Field(ge=0, le=10_000, description="From program change to sound, ms.")]
    controls: Annotated[
        Literal["lost", "held", "obeyed"] | None,
        Field(description="What happens to control changes meanwhile."),
    ] = None
    apply_ms: Annotated[int, Field(ge=0, le=1000, description="From control change to sound.")] = 0


class ReceiveShape(Shape):
    """What kinds of message the unit takes at all, and how much it can hold."""

    program: bool | None = None
    control: bool | None = None
    note: bool | None = None
    clock: bool | None = None
    system_exclusive: bool | None = None
    running_status: Annotated[bool, Field(description="Understands running status.")] = True
    buffer_bytes: Annotated[int | None, Field(ge=1, le=1_000_000)] = None
    longest_rate: Annotated[
        int | None, Field(ge=1, le=2000, description="Control changes a second it can follow.")
    ] = None


class SendShape(Shape):
    """Something the unit transmits of its own accord."""

    what: Literal["clock", "start-stop", "active-sensing", "program", "control"]
    setting: Annotated[Id | None, Field(description="The setting that turns it on and off.")] = None
    factory: OnOff = "off"


class IdentityShape(Shape):
    """Bytes of its identity reply: manufacturer 1 or 3, family 2, member 2."""

    manufacturer: Annotated[list[Seven], Field(min_length=1, max_length=3, examples=[[125]])]
    family: Annotated[list[Seven], Field(min_length=2, max_length=2, examples=[[1, 0]])]
    member: Annotated[list[Seven], Field(min_length=2, max_length=2, examples=[[2, 0]])]


class ExpressionShape(Shape):
    """An expression pedal as an electrical thing."""

    wiring: Literal["wiper-on-tip", "wiper-on-ring", "ends-swapped", "two-wire"]
    ohms: Annotated[int | None, Field(ge=100, le=1_000_000)] = None
    taper: Literal["linear", "audio"] | None = None
    lowest: Annotated[Seven, Field(description="What it reaches at the heel, uncalibrated.")] = 0
    highest: Annotated[Seven, Field(description="What it reaches at the toe.")] = 127
    flicker: Annotated[int, Field(ge=0, le=64, description="Steps it wanders at rest.")] = 0


class ChartShape(Shape):
    """A whole chart document."""

    format: Format
    chart: ChartHead
    source: list[Source] = []
    size: Size | None = None
    socket: list[SocketShape] = []
    bond: list[Bond] = []
    output: list[OutputShape] = []
    setting: list[SettingShape] = []
    channel: ChannelShape | None = None
    programs: ProgramsShape | None = None
    control: list[ControlShape] = []
    settle: SettleShape | None = None
    receive: ReceiveShape = ReceiveShape()
    send: list[SendShape] = []
    identity: IdentityShape | None = None
    power: PowerShape | None = None
    outlet: list[OutletShape] = []
    supply: SupplyShape | None = None
    loop: list[LoopShape] = []
    controller: ControllerShape | None = None
    pedal: list[PedalInputShape] = []
    expression: ExpressionShape | None = None
    odds: Annotated[
        list[OddsShape],
        Field(description="Ways in which this model fails more often, or less, than others."),
    ] = []
