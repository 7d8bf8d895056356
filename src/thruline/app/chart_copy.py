"""The text of a new chart: a copy of another, or a beginning of maker, model and kind."""

import re
from collections.abc import Mapping

from thruline.app.chart import look_at
from thruline.app.frame import Json, answer
from thruline.base.address import at
from thruline.base.edit import set_to
from thruline.base.errors import CannotUse
from thruline.document.change import apply
from thruline.document.problems import Problem
from thruline.document.read import read
from thruline.document.write import value_text
from thruline.workshop.face import Sheet

ENDING = ".chart.toml"
LONGEST_ID = 40
HEAD = ("maker", "model", "kind")
"""What a chart is begun with, beside its id."""
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def copy_of(sheet: Sheet, new: str) -> str:
    """The text of a chart under an id of its own; all else in it, comments too, stays.

    Raises CannotUse when the id cannot be one, or the chart cannot be used.
    """
    refuse_as_id(new)
    text, _ = read(sheet.content, file=sheet.file)
    refuse_unusable(text, sheet.file)
    return apply(text, [set_to(at("chart").child("id"), new)], file=sheet.file)


def beginning(new: str, head: Mapping[str, str]) -> str:
    """The text of a chart that holds what `HEAD` names, and no more.

    Raises CannotUse when the id cannot be one, or something of the head is not given.
    """
    refuse_as_id(new)
    for key in HEAD:
        if not head.get(key, "").strip():
            raise CannotUse(f"a chart begins with maker, model and kind: give the {key}")
    rows = [f"{key} = {value_text(head[key].strip())}" for key in HEAD]
    text = "\n".join(["format = 1", "", "[chart]", f"id = {value_text(new)}", *rows, ""])
    refuse_unusable(text, new)
    return text


def id_of_file(file: str) -> str:
    """The id that a chart has to have in a file of this name.

    Raises CannotUse when a rig would not find a chart in such a file.
    """
    name = file.replace("\\", "/").rsplit("/", 1)[-1]
    if not name.endswith(ENDING):
        raise CannotUse(f"{file} would not be found: call it after its id, as in my-delay{ENDING}")
    new = name.removesuffix(ENDING)
    refuse_as_id(new)
    return new


def copy_json(file: str, new: str, *, source: str) -> Json:
    """What was copied, for other programs."""
    return answer("chart copy", file=file, chart=new, copied_from=source)


def refuse_as_id(word: str) -> None:
    """Raises CannotUse when a word cannot be the id of a chart, and so the name of its file."""
    if not _ID.fullmatch(word) or len(word) > LONGEST_ID:
        raise CannotUse(
            f'"{word}" cannot be the id of a chart: that is small letters, digits and single '
            f"hyphens, at most {LONGEST_ID} of them, such as bramley-delay-2"
        )


def refuse_unusable(text: str, file: str) -> None:
    """Raises CannotUse with the first few reasons when a text cannot be used as a chart."""
    problems = look_at(Sheet(file, text.encode())).problems
    if problems:
        raise CannotUse("; ".join(_reason(one) for one in problems[:3]))


def _reason(problem: Problem) -> str:
    return f"{problem.says}, for example {problem.example}" if problem.example else problem.says
