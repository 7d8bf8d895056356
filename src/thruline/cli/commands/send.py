"""`send`: a preset or a sweep sent from here, as the controller would."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import TypedDict, Unpack

import click

from thruline.app.listen import Line, line_of
from thruline.app.parted import gone_says, left_out, names_of
from thruline.app.send import (
    CAUTION,
    Step,
    channels_in_use,
    look_at_outputs,
    pick_sweep,
    preset_step,
    unit_steps,
)
from thruline.app.send_answer import send_json, shows_rows, step_rows
from thruline.app.sweep import keyboard_travel, learned_pedal, pedal_travel, played_travel
from thruline.audit.digits import is_number
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS, CannotUse, WorldFailed
from thruline.bench.face import WallClock
from thruline.bench.listen import Session
from thruline.bench.pedal import Pedal, pedal_to_text, text_to_pedal
from thruline.bench.several import Way, play_again, play_parted, silence_every
from thruline.cli.given import A_FILE, Amount, refuse_idle, seconds
from thruline.cli.letting_go import until_the_end
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


OF_SWEEPS = ("seconds", "by_keyboard", "by_pedal", "pedal", "pedal_seconds")
"""Options that say how a sweep moves."""


@click.command("send", epilog="Exit code 0; 1 when a unit would not do what it is sent.")
@click.argument("rig", type=A_FILE)
@click.argument("what", required=False)
@click.option(
    "--port",
    multiple=True,
    metavar="[OUTPUT=]PORT",
    help="Where to send, or several; before it the output of the controller that it stands for.",
)
@click.option("--over", metavar="OUTPUT", help="The output that ports without their own stand for.")
@click.option("--step", is_flag=True, help="Unit by unit; the next only when you say so.")
@click.option("--seconds", type=Amount(0.2, 60), default=4.0, help="How long a sweep travels.")
@click.option("--by-keyboard", is_flag=True, help="Move a sweep by keys: + and - , q ends.")
@click.option("--by-pedal", metavar="PORT", help="Move a sweep by a pedal that comes in there.")
@click.option("--pedal", metavar="PEDAL", help="A pedal learned before, such as 1/11:4-121.")
@click.option("--for", "pedal_seconds", type=seconds(0.1), help="Let go of it after.")
@click.option("--panic", is_flag=True, help="All sound and all notes off, on the channels in use.")
@click.option("--try", "only_try", is_flag=True, help="Show what would be sent; send nothing.")
@click.option("--yes", is_flag=True, help="Do not ask whether the sound is turned down.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, what: str | None, **wish: Unpack[Wish]) -> int:
    """Send a preset or a sweep to the units, as the controller would.

    WHAT is the number of a preset or the name of a sweep. Messages leave with the pauses that were
    planned and no faster than a MIDI line takes them, to every --port (one for each line of the
    board). What every unit must show then is told. Ctrl-C sends all sound off and ends.

    A controller that chooses between its outputs sends other messages over each. Give every output
    its port, as in --port midi-out-1=USB-A --port midi-out-2=USB-B, or one output alone with
    --over. A port without either gets the messages of all; that is refused where it would reach a
    unit on another output by mistake.

    A port that is pulled out does not stop the others. What each unit was sent is told, and once
    the port is back everything for it is sent again.

    With --by-pedal you move a real pedal to its toe and its heel; from that it is learned which
    control it is and where its ends are, and then it moves the sweep.
    """
    case = Case(open_file(rig).rig)
    if wish["panic"]:
        refuse_idle(
            "what",
            "only_try",
            "step",
            *OF_SWEEPS,
            because="is not for --panic, which sends silence alone",
        )
        return _panic(case, wish)
    if what is None:
        raise CannotUse("say what to send: the number of a preset, the name of a sweep, or --panic")
    is_preset = is_number(what)
    _refuse_unfit(what, wish, is_preset=is_preset)
    return _preset(case, int(what), wish) if is_preset else _sweep(case, what, wish)


def _refuse_unfit(what: str, wish: Wish, *, is_preset: bool) -> None:
    """Raise CannotUse for an option that would do nothing here."""
    moves = {
        "--by-keyboard": wish["by_keyboard"],
        "--by-pedal": wish["by_pedal"] is not None,
        "--pedal": wish["pedal"] is not None,
        "--for": wish["pedal_seconds"] is not None,
    }
    asked = [name for name, is_asked in moves.items() if is_asked]
    if is_preset and asked:
        raise CannotUse(f"{asked[0]} moves a sweep, and {what} is a preset; name a sweep")
    if not is_preset and wish["step"]:
        raise CannotUse(f'--step is for presets, and "{what}" is a sweep; name a preset')
    if wish["by_keyboard"] and wish["by_pedal"] is not None:
        raise CannotUse("a sweep is moved by keys or by a pedal; leave one of them out")
    if wish["by_pedal"] is None and asked and asked != ["--by-keyboard"]:
        raise CannotUse(f"{asked[-1]} is about a pedal; name its port with --by-pedal")
    if is_preset:
        refuse_idle("seconds", because="is for a sweep, and a preset is sent")
    elif wish["by_keyboard"] or wish["by_pedal"] is not None:
        refuse_idle(
            "seconds", because="is for a sweep that moves by itself, and this is moved by hand"
        )


def _words(wish: Wish) -> list[Line]:
    """Ports as they were asked for, each with its output; empty where it has none."""
    lines = [line_of(word) for word in wish["port"]]
    return [
        Line(one.port, (wish["over"] or "") if one.name == one.port else one.name) for one in lines
    ]


def _overs(case: Case, wish: Wish) -> tuple[str, ...]:
    """The outputs that are sent for; none when all are."""
    words = _words(wish)
    outputs = [one.name for one in words] or [wish["over"] or ""]
    for output in outputs:
        look_at_outputs(case, [output] if output else ())
    return tuple(dict.fromkeys(outputs)) if all(outputs) else ()


def _ways(case: Case, wish: Wish, clock: WallClock) -> list[Way]:
    words = _words(wish)
    if not words:
        raise CannotUse("name a port to send to with --port; `thruline ports` lists them")
    ports = until_the_end(open_outputs([one.port for one in words], clock))
    ways = [Way(port, one.name or None) for port, one in zip(ports, words, strict=True)]
    lacks = left_out(case, ways)
    if lacks:
        complain(f"Note: {lacks}.")
    return ways


def _panic(case: Case, wish: Wish) -> int:
    clock = wall_clock()
    ways = _ways(case, wish, clock)
    says = silence_every(ways, channels_in_use(case), clock)
    if wish["as_json"]:
        give_json(send_json([], ports=[way.port.name for way in ways], sent=True))
    else:
        say(says)
    return EXIT_CLEAN


def _may_begin(wish: Wish) -> bool:
    """The caution before the first message."""
    complain(CAUTION)
    return wish["yes"] or ask("Is the sound turned down? (yes/no)").lower() in ("y", "yes")


def _preset(case: Case, number: int, wish: Wish) -> int:
    overs, sent = _overs(case, wish), not wish["only_try"]
    steps = (
        list(unit_steps(case, number, overs=overs))
        if wish["step"]
        else [preset_step(case, number, overs=overs)]
    )
    ways: list[Way] = []
    if sent:
        clock = wall_clock()
        ways = _ways(case, wish, clock)
        if not _may_begin(wish):
            raise click.Abort
        _play_steps(case, steps, ways, clock, wish=wish)
    elif not wish["as_json"]:
        for step in steps:
            say_all(step_rows(step))
            say_all(shows_rows(step.shows))
    if wish["as_json"]:
        give_json(send_json(steps, ports=[way.port.name for way in ways], sent=sent))
    troubled = any(one.trouble for step in steps for one in step.shows)
    return EXIT_FAULTS if troubled else EXIT_CLEAN


def _play_steps(
    case: Case, steps: Sequence[Step], ways: Sequence[Way], clock: WallClock, *, wish: Wish
) -> None:
    """Step after step, with a question between them; silence when the person stops."""
    with _silenced_at_the_end(case, ways, clock):
        for place, step in enumerate(steps, 1):
            _play_whole(step, ways, clock, wish=wish)
            if not wish["as_json"]:
                say_all(step_rows(step))
                say_all(shows_rows(step.shows))
            if place < len(steps) and not _confirmed(step):
                complain("That is the thing to look into first: `thruline find` seeks the reason.")
                raise click.Abort


def _play_whole(step: Step, ways: Sequence[Way], clock: WallClock, *, wish: Wish) -> None:
    """A step to all ports, and once more to those that went, as often as the person wants.

    Raises WorldFailed, with what each unit was sent, when nobody wants or nobody is asked.
    """
    took = play_parted(step.messages, ways, clock)
    while lost := [one for one in took if one.trouble]:
        says = gone_says(took, names_of(step))
        if wish["as_json"] or wish["yes"]:
            raise WorldFailed(says)
        complain(f"{says}.")
        names = " and ".join(one.way.port.name for one in lost)
        are = "is" if len(lost) == 1 else "are"
        wanted = ask(f'Once {names} {are} back, type "again" to send it all once more; Enter ends:')
        if wanted.lower() != "again":
            raise WorldFailed(f"ended: not everything was sent over {names}")
        took = play_again(lost, clock)


@contextmanager
def _silenced_at_the_end(case: Case, ways: Sequence[Way], clock: WallClock) -> Iterator[None]:
    """When the person stops it, or a port goes for good, what is left is made silent."""
    try:
        yield
    except (KeyboardInterrupt, WorldFailed, click.Abort) as end:
        try:
            says = silence_every(ways, channels_in_use(case), clock)
        except WorldFailed as trouble:
            says = trouble.says
        complain(f"stopped; {says}")
        raise end from None


def _confirmed(step: Step) -> bool:
    shown = "; ".join(one.says for one in step.shows) or step.title
    return ask(f"{shown}. Is it so? (yes/no)").lower() in ("y", "yes")


def _sweep(case: Case, name: str, wish: Wish) -> int:
    sweep, clock = pick_sweep(case, name, overs=_overs(case, wish)), wall_clock()
    if wish["only_try"]:
        raise CannotUse("--try is for presets; a sweep shows what it does only when it moves")
    pedal = text_to_pedal(wish["pedal"]) if wish["pedal"] is not None else None
    ways = _ways(case, wish, clock)
    session: Session | None = None
    if wish["by_pedal"] is not None:
        session = Session(open_inputs([wish["by_pedal"]], clock), clock, lines=["pedal"])
    if not _may_begin(wish):
        raise click.Abort
    with _silenced_at_the_end(case, ways, clock):
        if session is not None:
            seconds = wish["pedal_seconds"]
            places = _by_pedal(
                case, sweep, ways=ways, session=session, pedal=pedal, seconds=seconds
            )
        elif wish["by_keyboard"]:
            places = keyboard_travel(case, sweep, ways=ways, clock=clock, key=_key)
        else:
            places = played_travel(case, sweep, ways=ways, clock=clock, seconds=wish["seconds"])
        for row in places:
            if not wish["as_json"]:
                say(row)
    if wish["as_json"]:
        give_json(send_json([], ports=[way.port.name for way in ways], sent=True))
    return EXIT_CLEAN


def _key() -> str:
    """A key that was pressed. Raises CannotUse where none can be."""
    try:
        return click.getchar()
    except OSError:
        raise CannotUse(
            "no keys can be read here: --by-keyboard needs a terminal. Without it the sweep "
            "travels by itself, and --by-pedal lets a pedal move it"
        ) from None


def _by_pedal(
    case: Case,
    sweep: Sweep,
    *,
    ways: Sequence[Way],
    session: Session,
    pedal: Pedal | None,
    seconds: float | None,
) -> Iterator[str]:
    """The pedal learned, unless it was before, and followed for so many seconds."""
    try:
        if pedal is None:
            pedal = learned_pedal(session, ask)
            complain(f"the pedal is {pedal.says}; next time: --pedal {pedal_to_text(pedal)}")
        complain("move the pedal; Ctrl-C ends it")
        until_us = None if seconds is None else session.passed_us + round(seconds * 1_000_000)
        yield from pedal_travel(
            case, sweep, ways=ways, session=session, pedal=pedal, until_us=until_us
        )
    finally:
        session.close()
