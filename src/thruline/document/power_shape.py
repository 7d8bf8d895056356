"""The shape of a chart's power, key by key: what a unit wants, what a supply gives."""

from typing import Annotated, Literal

from pydantic import Field

from thruline.document.shape import Id, Shape, ShortText

Polarity = Literal["centre-negative", "centre-positive"]


class PowerShape(Shape):
    """What the unit wants from a supply."""

    millivolts: Annotated[int, Field(ge=1000, le=60_000, examples=[9000])]
    most_millivolts: Annotated[int | None, Field(ge=1000, le=60_000, examples=[18000])] = None
    feed: Literal["dc", "ac"] = "dc"
    polarity: Polarity | None = None
    milliamps: Annotated[int | None, Field(ge=1, le=20_000, examples=[180])] = None
    start_percent: Annotated[
        int | None, Field(ge=100, le=500, description="Current at start-up, percent.")
    ] = None
    digital: Annotated[bool | None, Field(description="Puts noise on a shared return.")] = None


class OutletChoiceShape(Shape):
    """What an outlet gives at one position of its switch."""

    value: Annotated[ShortText, Field(description="The position, as its setting spells it.")]
    millivolts: Annotated[int, Field(ge=1000, le=60_000, examples=[18_000])]
    milliamps: Annotated[int, Field(ge=1, le=20_000, examples=[250])]


class OutletShape(Shape):
    """One outlet of a power supply, at whatever positions of its switch `choice` does not name."""

    socket: Id
    millivolts: Annotated[int, Field(ge=1000, le=60_000, examples=[9000])]
    feed: Literal["dc", "ac"] = "dc"
    polarity: Polarity | None = None
    milliamps: Annotated[int, Field(ge=1, le=20_000, examples=[500])]
    isolated: bool
    choice: Annotated[list[OutletChoiceShape], Field(
        description="Where a switch chooses the voltage: its other positions.")] = []  # fmt: skip


class SupplyShape(Shape):
    """A power supply as a whole."""

    milliwatts: Annotated[int | None, Field(ge=100, le=1_000_000, examples=[40_000])] = None
