"""The documents that come with the program."""

from importlib.resources import files

FIRST_BOARD = "first-board/first-board.rig.toml"
AS_FOUND = "orchard-street/as-found.rig.toml"
ORCHARD_STREET = "orchard-street/orchard-street.rig.toml"


def sample_text(place: str) -> str:
    """The text of a packaged document, by its place among the samples."""
    return (files("thruline") / "samples").joinpath(*place.split("/")).read_text(encoding="utf-8")
