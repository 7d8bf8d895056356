"""`demo`: a rig as it was found, mended step by step, and what is left of it."""

import shlex
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path

import click

from thruline.app.demo import (
    AS_FOUND,
    MENDED,
    SAYS,
    SHOWN_PRESET,
    Shown,
    demo_json,
    left_files,
    mended_state,
)
from thruline.app.load import Opened
from thruline.app.mend import State, Step
from thruline.app.mending import mending
from thruline.app.prove import prove_rig
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS
from thruline.cli.given import A_FILE
from thruline.cli.proof_text import verdict_mark
from thruline.cli.show import called, give_json, progress, say_all, styled
from thruline.cli.step_text import found_rows, step_rows
from thruline.papers.proof_words import summary
from thruline.proof.rulebook import rulebook
from thruline.wiring import demo_texts, fill_demo_folder, open_demo_folder, open_sample

FOLDER = "thruline-demo"


@click.command("demo", epilog="Exit code 0 when the mended rig has no faults.")
@click.argument("folder", type=A_FILE, default=FOLDER)
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(folder: str, *, as_json: bool) -> int:
    """Prove an invented rig as it was found, mend it step by step, leave the result in FOLDER.

    FOLDER is `thruline-demo` when none is named. Whatever the demonstration did not make itself is
    never overwritten; it may be run again and again.
    """
    open_demo_folder(folder)
    texts = demo_texts()
    tell = _nothing if as_json else say_all
    found = _proved(open_sample(texts[0], _file(folder, AS_FOUND)))
    tell(_opening(found))
    steps = list(_told_steps(found, tell))
    mended = mended_state(steps[-1].after if steps else found, _file(folder, MENDED))
    shown = Shown(folder=folder, found=found, steps=tuple(steps), mended=mended)
    fill_demo_folder(folder, left_files(texts[1], shown))
    if as_json:
        give_json(demo_json(shown))
    else:
        say_all(_result(shown))
    return EXIT_CLEAN if mended.proof.is_clean else EXIT_FAULTS


def _proved(opened: Opened) -> State:
    """The rig as it was found, with a bar where proving it takes long."""
    with progress("proving", len(rulebook())) as done:
        case, proof = prove_rig(opened, step=lambda count, _total: done(count))
    return State(opened=opened, case=case, proof=proof)


def _nothing(_rows: Iterable[str]) -> None:
    """Tell nothing: the one object comes at the end."""


def _file(folder: str, name: str) -> str:
    return str(Path(folder) / name)


def _opening(found: State) -> Iterator[str]:
    rig = found.opened.rig
    yield "The guitar chair in the pit of a touring show: 24 cues, and a bad first rehearsal."
    yield "The show, its people, and every maker and model here are invented."
    yield ""
    yield styled("THE RIG AS IT WAS FOUND", "strong")
    yield f"  {found.opened.document.file}: {len(rig.units)} units, {len(rig.presets)} presets"
    yield ""
    yield from found_rows(found)
    yield ""
    yield f"  {summary(found.proof)}"
    yield ""
    yield styled("MENDED STEP BY STEP", "strong")
    yield "  First what is safe: mends that decide nothing for anybody. Then, finding by finding,"
    yield "  the first mend that works and makes nothing new. Each is proved before it is made."
    yield ""


def _told_steps(found: State, tell: Callable[[Iterable[str]], None]) -> Iterator[Step]:
    """The steps of mending, each told as soon as it is made."""
    before = found.proof
    for number, step in enumerate(mending(found), 1):
        tell(step_rows(number, step, before))
        before = step.after.proof
        yield step


def _result(shown: Shown) -> Iterator[str]:
    proof = shown.mended.proof
    yield ""
    yield styled("WHAT REMAINS", "strong")
    yield from found_rows(shown.mended)
    if not proof.findings and not proof.untold:
        yield "  Nothing."
    yield "  No finding was accepted: that takes a reason, and a person to give it."
    yield ""
    yield styled("THE RIG AS IT IS NOW", "strong")
    yield f"  {verdict_mark(proof)}  {shown.mended.opened.rig.name}"
    yield f"  {summary(proof)}"
    yield ""
    yield f"{styled('LEFT IN THE FOLDER', 'strong')} {shown.folder}"
    yield from _columns(SAYS)
    yield ""
    yield styled("TRY NEXT", "strong")
    me = called()
    mended, found = (shlex.quote(_file(shown.folder, name)) for name in (MENDED, AS_FOUND))
    yield from _columns(
        {
            f"{me} prove {found}": "each finding with its evidence",
            f"{me} mend {found}": "every mend, tried, each with a name",
            f"{me} trace {mended} {SHOWN_PRESET}": "one preset, message by message",
            f"{me} chart show bramley-delay": "what a unit answers to",
            f"{me} new my-board.rig.toml": "a rig of your own",
        }
    )


def _columns(rows: Mapping[str, str]) -> Iterator[str]:
    width = max(map(len, rows))
    yield from (f"  {name.ljust(width)}  {says}" for name, says in rows.items())
