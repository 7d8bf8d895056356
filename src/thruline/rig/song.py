"""Songs: tempo and presets in the order they come; the setlist is the songs in document order."""

from dataclasses import dataclass

from thruline.base.address import Address, at, nth


@dataclass(frozen=True, slots=True, kw_only=True)
class Song:
    """One number of the set; `tempo` in quarter notes a minute, None when it has none."""

    name: str
    tempo: int | None
    presets: tuple[int, ...]
    occurrence: int = 1

    @property
    def address(self) -> Address:
        """Where the song stands in the document."""
        return at("song", nth(self.name, self.occurrence))
