"""What a person may give to more than one command."""

from collections.abc import Iterable

import click

from thruline.base.errors import CannotUse
from thruline.rig.nearest import nearest

A_FILE = click.Path(readable=False)
"""A file or folder by name. Whether it may be read is found out, and told, by what reads it."""


class OneOf(click.Choice[str]):
    """One word of a closed list; `thing` is what such a word names, for whoever gives another."""

    def __init__(self, thing: str, words: Iterable[str]) -> None:
        """The words in the order in which they are listed."""
        super().__init__(list(words))
        self.thing = thing

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The word itself. Raises CannotUse, with the nearest word, when it is not on the list."""
        words = list(self.choices)
        if value not in words:
            meant = nearest(value, words)
            hint = f'did you mean "{meant}"?' if meant else f"there are: {', '.join(words)}"
            raise CannotUse(f'there is no {self.thing} "{value}"; {hint}')
        return super().convert(value, param, ctx)
