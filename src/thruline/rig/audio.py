"""The audio path: what the sound goes through, in order, and the relay loops on the way."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stage:
    """One station of the sound.

    Either a unit, or a relay loop of a unit with units inside it, or a word for what is not on the
    board (the instrument, the amplifier).
    """

    written: str
    unit: str | None
    loop: str | None = None
    inside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Audio:
    """The whole path from the instrument on."""

    stages: tuple[Stage, ...]

    def loop_of(self, unit: str) -> tuple[str, str] | None:
        """The unit and the loop that a unit hangs in, if it hangs in one."""
        for stage in self.stages:
            if unit in stage.inside and stage.unit and stage.loop:
                return stage.unit, stage.loop
        return None

    @property
    def units(self) -> tuple[str, ...]:
        """Every unit on the path, in the order the sound meets it."""
        met: list[str] = []
        for stage in self.stages:
            met.extend(stage.inside if stage.loop else [stage.unit] if stage.unit else [])
        return tuple(met)
