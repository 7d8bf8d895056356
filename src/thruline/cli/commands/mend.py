"""`mend`: list mends with what each would do, apply one or all safe ones, take one back."""

from collections.abc import Iterator, Sequence

import click

from thruline.app.answer import Json, answer, difference_json, mend_json, proof_json
from thruline.app.compare import BOX, between, by_hand
from thruline.app.frame import typed_in
from thruline.app.mend import State, Step, chosen_steps, offers, safe_steps, state_of
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS, CannotUse
from thruline.cli.given import A_FILE, refuse_idle
from thruline.cli.proof_text import proof_rows
from thruline.cli.show import give_json, progress, say, say_all, styled
from thruline.mend.named import named
from thruline.mend.weigh import Weighed
from thruline.papers.proof_words import summary
from thruline.wiring import is_book, open_file, refuse_book, save, take_back


@click.command("mend", epilog="Exit code 0 when no fault stands in the end, 1 when one does.")
@click.argument("rig", type=A_FILE)
@click.option(
    "--do",
    "wanted",
    metavar="MEND",
    multiple=True,
    help="Apply the mend of this name, or of this beginning; may be given several times.",
)
@click.option("--safe", is_flag=True, help="Apply every safe mend, one after the other.")
@click.option("--try", "only_try", is_flag=True, help="Show what would change; write nothing.")
@click.option("--undo", is_flag=True, help="Take back the last mend that was written.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(
    rig: str, *, wanted: Sequence[str], safe: bool, only_try: bool, undo: bool, as_json: bool
) -> int:
    """List the mends of what the proof found. Each was tried: the rig was proved again with it.

    A mend is safe when it decides nothing for you, removes its finding and causes no other.
    """
    if sum((bool(wanted), safe, undo)) > 1:
        raise CannotUse("choose one of --do, --safe and --undo")
    if undo:
        refuse_idle("only_try", because="is for --do and --safe; --undo writes at once")
    if undo or ((wanted or safe) and not only_try):
        refuse_book(rig)
    if undo:
        left = take_back(rig)
        return _taken_back(state_of(open_file(rig)), left=left, as_json=as_json)
    state = state_of(open_file(rig))
    if not wanted and not safe:
        return _list(state, as_json=as_json)
    steps = list(safe_steps(state) if safe else chosen_steps(state, wanted))
    if steps and not only_try:
        save(rig, steps[-1].after.opened.document.text, before=state.opened.document.text)
    return _report(state, steps, written=not only_try, as_json=as_json)


def _list(state: State, *, as_json: bool) -> int:
    weighed = _weigh(state)
    if as_json:
        facts = proof_json(state.opened, state.proof)
        give_json(answer("mend", **facts, mends=_mends_json(weighed)))
    else:
        say_all(proof_rows(state.opened, state.proof, weighed=weighed))
        if weighed:
            say()
            say_all(_next_rows(state.opened.document.file, weighed))
    return EXIT_CLEAN if state.proof.is_clean else EXIT_FAULTS


def _next_rows(file: str, weighed: Sequence[Weighed]) -> Iterator[str]:
    """What is typed to apply mends."""
    if is_book(file):
        yield f"to apply one:    {typed_in('open', file)} first; a book is not written into"
        return
    yield f"apply one:       {typed_in('mend', file, '--do', 'MEND')}"
    safe = sum(one.is_safe for one in weighed)
    if safe:
        yield f"apply all safe:  {typed_in('mend', file, '--safe')}   ({safe} of {len(weighed)})"


def _weigh(state: State) -> Sequence[Weighed]:
    """Every mend weighed, with a bar where that takes long."""
    total = sum(len(finding.mends) for finding in state.proof.findings)
    weighed = []
    with progress("trying mends", total) as done:
        for place, one in enumerate(offers(state), 1):
            weighed.append(one)
            done(place)
    return weighed


def _taken_back(state: State, *, left: int, as_json: bool) -> int:
    """The verdict on the rig as it was, and how many mends can still be taken back."""
    if as_json:
        give_json(answer("mend", left=left, **proof_json(state.opened, state.proof)))
    else:
        say(f"{state.opened.document.file} is again as it was before the last mend")
        if left:
            say(f"{left} more can be taken back")
        say(summary(state.proof))
    return EXIT_CLEAN if state.proof.is_clean else EXIT_FAULTS


def _report(state: State, steps: Sequence[Step], *, written: bool, as_json: bool) -> int:
    last = steps[-1].after if steps else state
    if as_json:
        give_json(
            answer(
                "mend",
                written=written and bool(steps),
                steps=[_step_json(step) for step in steps],
                by_hand=list(by_hand(between(state, last))) if steps else [],
                **proof_json(last.opened, last.proof),
            )
        )
    else:
        for step in steps:
            say(f"{styled('mended', 'good')}  {step.done.mend.says}")
            say_all(f"    {row}" for row in step.diff.splitlines()[2:])
            say_all(_effect_rows(step))
        if not steps:
            say(_nothing_done(last))
        elif written:
            say(f"written to {last.opened.document.file}; `--undo` takes it back")
        else:
            say("tried only: nothing was written")
        say_all(_bench_rows(state, last, count=len(steps)))
        say(summary(last.proof))
    return EXIT_CLEAN if last.proof.is_clean else EXIT_FAULTS


def _effect_rows(step: Step) -> Iterator[str]:
    """What is gone with a mend, and what it brings to light."""
    effect = step.done.effect
    if effect is not None:
        yield from (f"    gone: {one.says}" for one in effect.gone)
        yield from (f"    new {one.severity.value}: {one.says}" for one in effect.new)
        yield from (f"    now cannot be told: {one.says}" for one in effect.newly_untold)


def _bench_rows(state: State, last: State, *, count: int) -> Iterator[str]:
    """What is left to be done by hand: the document is mended, the board is not yet."""
    tasks = list(by_hand(between(state, last))) if count else []
    if tasks:
        yield styled("now on the bench:", "strong")
        yield from (f"    {BOX} {task}" for task in tasks)


def _nothing_done(state: State) -> str:
    """Why no safe mend was applied."""
    if not state.proof.findings:
        return "nothing to mend"
    return "no mend is safe to apply by itself; choose one with --do"


def _mends_json(weighed: Sequence[Weighed]) -> list[Json]:
    names = named([one.mend for one in weighed])
    return [{"name": name, **_weighed_json(one)} for name, one in zip(names, weighed, strict=True)]


def _weighed_json(one: Weighed) -> Json:
    return {
        "finding": one.finding.id,
        **mend_json(one.mend),
        "works": one.works,
        "safe": one.is_safe,
        "effect": difference_json(one.effect) if one.effect else None,
        "trouble": one.trouble,
    }


def _step_json(step: Step) -> Json:
    return {**_weighed_json(step.done), "diff": step.diff}
