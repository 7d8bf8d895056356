"""What a person may give to more than one command."""

import math
import os
from collections.abc import Iterable

import click
from click.core import ParameterSource

from thruline.base.errors import CannotUse
from thruline.rig.nearest import nearest


class FileName(click.Path):
    """A file or folder by name. Whether it may be read is found out, and told, by what reads it."""

    def __init__(self) -> None:
        """Nothing is looked at yet."""
        super().__init__(readable=False)

    def convert(
        self,
        value: str | os.PathLike[str],
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> str | bytes | os.PathLike[str]:
        """The name itself. Raises CannotUse for an empty one, which would mean this folder."""
        if not str(value).strip():
            what = f"{param.get_error_hint(ctx)}: " if param is not None and ctx is not None else ""
            raise CannotUse(f"{what}a file has a name, and this is empty")
        return super().convert(value, param, ctx)


A_FILE = FileName()
LONGEST = 7 * 86_400
"""Seconds of a week: nobody waits for a command, or lets one run, longer than that."""
WITH_A_PORT = "is for listening to a port; leave it out with a capture"


class Amount(click.FloatRange):
    """A number within bounds.

    What is not a number is refused too: it is neither above nor below any bound.
    """

    def convert(
        self, value: float, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """The number itself."""
        if not math.isfinite(click.FLOAT.convert(value, param, ctx)):
            self.fail(f"{value} is no amount; write a number, such as 4 or 0.5", param, ctx)
        found: float = super().convert(value, param, ctx)
        return found


def seconds(least: float) -> Amount:
    """So many seconds or more, up to a week."""
    return Amount(least, LONGEST)


def refuse_idle(*names: str, because: str) -> None:
    """Raise CannotUse when one of these options of the running command was given.

    To be called where they would do nothing; `because` goes on behind the option's name.
    """
    context = click.get_current_context()
    for one in context.command.params:
        source = context.get_parameter_source(one.name or "")
        if one.name in names and source is ParameterSource.COMMANDLINE:
            raise CannotUse(f"{max(one.opts, key=len)} {because}")


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
