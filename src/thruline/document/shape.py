"""What both kinds of document have in common: strict keys with hyphens, and shared small types."""

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field


def _hyphened(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


class Shape(BaseModel):
    """A table of a document: keys are written with hyphens, unknown keys are refused."""

    model_config = ConfigDict(
        extra="forbid", strict=True, alias_generator=_hyphened, frozen=True, allow_inf_nan=False
    )


Id = Annotated[
    str,
    Field(
        pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$",
        max_length=40,
        description="Small letters, digits and single hyphens.",
        examples=["delay-2"],
    ),
]
LONGEST_NAME = 80
"""Letters of a name; more fit no display, and no label."""
ShortText = Annotated[str, Field(min_length=1, max_length=LONGEST_NAME, examples=["Bramley Delay"])]
LongText = Annotated[str, Field(max_length=2000)]
Format = Annotated[Literal[1], Field(description="The format of this document; always 1.")]
ChannelNumber = Annotated[
    int, Field(ge=1, le=16, description="A MIDI channel as people count it, 1 to 16.", examples=[3])
]
Seven = Annotated[int, Field(ge=0, le=127, description="A data byte, 0 to 127.", examples=[64])]
Contact = Annotated[str, Field(min_length=1, max_length=8, examples=["tip"])]


class Size(Shape):
    """Outer size of a thing in millimetres, seen from above as it stands on the board."""

    width: Annotated[int, Field(ge=1, le=5000, examples=[120])]
    depth: Annotated[int, Field(ge=1, le=5000, examples=[95])]
    height: Annotated[int, Field(ge=1, le=2000, examples=[55])] = 50
