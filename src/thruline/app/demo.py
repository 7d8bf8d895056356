"""What is all this good for? A rig as it was found, mended step by step, and what is left of it.

Everything here is invented, and everything comes out the same each time.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from thruline.app.answer import proof_json
from thruline.app.frame import Json, answer
from thruline.app.load import Opened, open_again
from thruline.app.mend import State, Step, state_of
from thruline.app.mending import uncovers
from thruline.app.report import report_page
from thruline.app.trace import trace
from thruline.base.address import at
from thruline.base.edit import set_to
from thruline.document.change import apply_to
from thruline.papers.timing_svg import timing_svg

AS_FOUND = "as-found.rig.toml"
AS_MEANT = "orchard-street.rig.toml"
MENDED = "mended.rig.toml"
TIMING = "timing-chart.svg"
REPORT = "report.html"
MADE = "made-here.sha256"
"""The list that the folder keeps of itself."""
SHOWN_PRESET = 5
"""Market solo: the preset whose changes came while the delay was loading."""

SAYS: Mapping[str, str] = {
    AS_FOUND: "the rig as it came in",
    MENDED: "the same rig after these mends",
    AS_MEANT: "the rig as it was meant, to compare",
    TIMING: "preset 5 of the mended rig, message by message; open it in a browser",
    REPORT: "what was found, every mend and the proof, as a page; open it in a browser",
    MADE: "the list of these files, by which a later run knows its own",
}
"""The files that are left, and what each is."""

_HEAD = """\
# Orchard Street Revival: the guitar chair, as found and then mended.
#
# An invented show and an invented rig. `thruline demo` made this out of as-found.rig.toml beside
# it, one mend after the other; hold the two side by side to see each.

"""
_NAME = "Orchard Street Revival, guitar chair, mended"
_ABOUT = "Invented demonstration: the rig as it was found, after every mend that helps."


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """The demonstration: the rig as found, every step, and the rig in the end."""

    folder: str
    found: State
    steps: tuple[Step, ...]
    mended: State


def mended_text(opened: Opened) -> str:
    """The mended document under a name of its own, with a head that says what it is."""
    rig = at("rig")
    edits = [set_to(rig.child("name"), _NAME), set_to(rig.child("about"), _ABOUT)]
    text = apply_to(opened.document, edits)
    return _HEAD + text[text.index("format = 1") :]


def mended_state(last: State, file: str) -> State:
    """The mended rig under the name of its own file, proved."""
    opened = open_again(last.opened, mended_text(last.opened))
    named = replace(opened, document=replace(opened.document, file=file))
    return state_of(named, last.case)


def left_files(meant: str, shown: Shown) -> Mapping[str, str]:
    """Every file that is left, but for the list; `meant` is the text of the rig as it was meant."""
    found, mended = shown.found, shown.mended
    page = report_page(mended, presets=(SHOWN_PRESET,), found=found, steps=shown.steps)
    return {
        AS_FOUND: found.opened.document.text,
        MENDED: mended.opened.document.text,
        AS_MEANT: meant,
        TIMING: timing_svg(trace(mended.case, SHOWN_PRESET).picture),
        REPORT: page,
    }


def demo_json(shown: Shown) -> Json:
    """The whole demonstration, for other programs."""
    return answer(
        "demo",
        folder=shown.folder,
        files=[{"file": name, "says": says} for name, says in SAYS.items()],
        found=proof_json(shown.found.opened, shown.found.proof),
        steps=[_step_json(step) for step in shown.steps],
        mended=proof_json(shown.mended.opened, shown.mended.proof),
    )


def _step_json(step: Step) -> Json:
    return {
        "finding": step.done.finding.id,
        "says": step.done.mend.says,
        "safe": step.done.mend.is_safe,
        "uncovers": [one.id for one in uncovers(step)],
        "diff": step.diff,
    }
