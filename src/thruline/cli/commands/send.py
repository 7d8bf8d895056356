"""`send`: a preset or a sweep sent from here, as the controller would."""

from collections.abc import Iterator, Sequence
from typing import TypedDict, Unpack

import click

from thruline.app.send import (
    CAUTION,
    Step,
    channels_in_use,
    pick_sweep,
    preset_step,
    unit_steps,
)
from thruline.app.send_answer import send_json, shows_rows, step_rows
from thruline.app.sweep import keyboard_travel, learned_pedal, pedal_travel, played_travel
from thruline.audit.digits import is_number
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS, CannotUse
from thruline.bench.face import OutPort, WallClock
from thruline.bench.guard import Guarded
from thruline.bench.listen import Session
from thruline.bench.pedal import pedal_to_text, text_to_pedal
from thruline.bench.send import play, silence
from thruline.cli.given import A_FILE
from thruline.cli.show import ask, complain, give_json, say, say_all
from thruline.proof.case import Case
from thruline.rig.sweep import Sweep
from thruline.wiring import open_file, open_inputs, open_outputs, wall_clock


class Wish(TypedDict):
    """What is asked for besides the rig."""

    port: tuple[str, ...]
    over: str | None
    step: bool
    seconds: float
    by_keyboard: bool
    by_pedal: str | None
    pedal: str | None
    pedal_seconds: float | None
    panic: bool
    only_try: bool
    yes: bool
    as_json: bool


@click.command("send", epilog="Exit code 0; 1 when a unit would not do what it is sent.")
@click.argument("rig", type=A_FILE)
@click.argument("what", required=False)
@click.option("--port", multiple=True, metavar="PORT", help="Where to send; may be given again.")
@click.option("--over", metavar="OUTPUT", help="Only what the controller sends over this output.")
@click.option("--step", is_flag=True, help="Unit by unit; the next only when you say so.")
@click.option(
    "--seconds", type=click.FloatRange(0.2, 60), default=4.0, help="How long a sweep travels."
)
@click.option("--by-keyboard", is_flag=True, help="Move a sweep by keys: + and - , q ends.")
@click.option("--by-pedal", metavar="PORT", help="Move a sweep by a pedal that comes in there.")
@click.option("--pedal", metavar="PEDAL", help="A pedal learned before, such as 1/11:4-121.")
@click.option("--for", "pedal_seconds", type=click.FloatRange(0.1), help="Let go of it after.")
@click.option("--panic", is_flag=True, help="All sound and all notes off, on the channels in use.")
@click.option("--try", "only_try", is_flag=True, help="Show what would be sent; send nothing.")
@click.option("--yes", is_flag=True, help="Do not ask whether the sound is turned down.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, what: str | None, **wish: Unpack[Wish]) -> int:
    """Send a preset or a sweep to the units, as the controller would.

    WHAT is the number of a preset or the name of a sweep. Messages leave with the pauses that were
    planned and no faster than a MIDI line takes them, to every --port (one for each line of the
    board). What every unit must show then is told. Ctrl-C sends all sound off and ends.

    A controller that chooses between its outputs sends other messages over each: --over says which
    of them the ports stand for. Without it they get the messages of all; that is refused where it
    would reach a unit on another output by mistake.

    With --by-pedal you move a real pedal to its toe and its heel; from that it is learned which
    control it is and where its ends are, and then it moves the sweep.
    """
    case = Case(open_file(rig).rig)
    if wish["panic"]:
        return _panic(case, wish)
    if what is None:
        raise CannotUse("say what to send: the number of a preset, the name of a sweep, or --panic")
    if not is_number(what):
        return _sweep(case, what, wish)
    number = int(what)
    over = wish["over"]
    if wish["step"]:
        steps = list(unit_steps(case, number, over=over))
    else:
        steps = [preset_step(case, number, over=over)]
    return _preset(case, steps, wish)


def _ports(wish: Wish, clock: WallClock) -> list[Guarded]:
    if not wish["port"]:
        raise CannotUse("name a port to send to with --port; `thruline ports` lists them")
    return open_outputs(wish["port"], clock)


def _panic(case: Case, wish: Wish) -> int:
    clock = wall_clock()
    ports = _ports(wish, clock)
    play(silence(channels_in_use(case)), ports, clock)
    names = [port.name for port in ports]
    if wish["as_json"]:
        give_json(send_json([], ports=names, sent=True))
    else:
        say(f"all sound and all notes off, sent to {', '.join(names)}")
    return EXIT_CLEAN


def _may_begin(wish: Wish) -> bool:
    """The caution before the first message."""
    complain(CAUTION)
    return wish["yes"] or ask("Is the sound turned down? (yes/no)").lower() in ("y", "yes")


def _preset(case: Case, steps: Sequence[Step], wish: Wish) -> int:
    sent = not wish["only_try"]
    names: list[str] = []
    if sent:
        clock = wall_clock()
        ports = _ports(wish, clock)
        names = [port.name for port in ports]
        if not _may_begin(wish):
            raise click.Abort
        _play_steps(case, steps, ports, clock, wish=wish)
    elif not wish["as_json"]:
        for step in steps:
            say_all(step_rows(step))
            say_all(shows_rows(step.shows))
    if wish["as_json"]:
        give_json(send_json(steps, ports=names, sent=sent))
    troubled = any(one.trouble for step in steps for one in step.shows)
    return EXIT_FAULTS if troubled else EXIT_CLEAN


def _play_steps(
    case: Case, steps: Sequence[Step], ports: Sequence[OutPort], clock: WallClock, *, wish: Wish
) -> None:
    """Step after step, with a question between them; silence when the person stops."""
    try:
        for place, step in enumerate(steps, 1):
            play(step.messages, ports, clock)
            if not wish["as_json"]:
                say_all(step_rows(step))
                say_all(shows_rows(step.shows))
            if place < len(steps) and not _confirmed(step):
                raise click.Abort
    except KeyboardInterrupt:
        play(silence(channels_in_use(case)), ports, clock)
        complain("stopped; all sound off was sent")
        raise


def _confirmed(step: Step) -> bool:
    shown = "; ".join(one.says for one in step.shows) or step.title
    return ask(f"{shown}. Is it so? (yes/no)").lower() in ("y", "yes")


def _sweep(case: Case, name: str, wish: Wish) -> int:
    sweep, clock = pick_sweep(case, name, over=wish["over"]), wall_clock()
    if wish["only_try"]:
        raise CannotUse("--try is for presets; a sweep shows what it does only when it moves")
    ports = _ports(wish, clock)
    if not _may_begin(wish):
        raise click.Abort
    try:
        if wish["by_pedal"] is not None:
            places = _by_pedal(case, sweep, ports, clock, wish=wish)
        elif wish["by_keyboard"]:
            places = keyboard_travel(case, sweep, ports=ports, clock=clock, key=click.getchar)
        else:
            places = played_travel(case, sweep, ports=ports, clock=clock, seconds=wish["seconds"])
        for row in places:
            if not wish["as_json"]:
                say(row)
    except KeyboardInterrupt:
        play(silence(channels_in_use(case)), ports, clock)
        complain("stopped; all sound off was sent")
        raise
    if wish["as_json"]:
        give_json(send_json([], ports=[port.name for port in ports], sent=True))
    return EXIT_CLEAN


def _by_pedal(
    case: Case, sweep: Sweep, ports: Sequence[OutPort], clock: WallClock, *, wish: Wish
) -> Iterator[str]:
    """The pedal learned, unless it was before, and followed."""
    session = Session(open_inputs([wish["by_pedal"] or ""], clock), clock, lines=["pedal"])
    try:
        if wish["pedal"] is not None:
            pedal = text_to_pedal(wish["pedal"])
        else:
            pedal = learned_pedal(session, ask)
            complain(f"the pedal is {pedal.says}; next time: --pedal {pedal_to_text(pedal)}")
        complain("move the pedal; Ctrl-C ends it")
        seconds = wish["pedal_seconds"]
        until_us = None if seconds is None else session.passed_us + round(seconds * 1_000_000)
        yield from pedal_travel(
            case, sweep, ports=ports, session=session, pedal=pedal, until_us=until_us
        )
    finally:
        session.close()
