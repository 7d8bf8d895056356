"""`plan`: channels, power and cables worked out, shown as an edit, and applied when asked for."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypedDict, Unpack

import click

from thruline.app.cable_labels import cable_labels
from thruline.app.frame import Json, answer, typed_in
from thruline.app.load import Opened
from thruline.app.plan_cables import (
    SPOOL,
    Stock,
    cable_sections,
    cables_json,
    plan_rig_cables,
)
from thruline.app.plan_channels import (
    channel_json,
    channel_sections,
    plan_rig_channels,
    read_pinned,
)
from thruline.app.plan_power import plan_rig_power, power_json, power_sections
from thruline.app.planned import Tried, tried_words
from thruline.audit.digits import is_number
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS, CannotUse
from thruline.cli.given import A_FILE, refuse_idle
from thruline.cli.paper_text import section_rows
from thruline.cli.show import (
    give_json,
    only_ours,
    say,
    say_all,
    styled,
    terminal_width,
)
from thruline.papers.labels import labels_html
from thruline.papers.paper import Section
from thruline.plan.cable_kinds import KINDS
from thruline.plan.cables import Wish
from thruline.wiring import is_book, open_file, refuse_book, save, write_page

ENDS = "Exit code 0 when there is a plan for all, 1 when there is none."


@dataclass(frozen=True, slots=True)
class _Told:
    """A plan as it is shown: which one, in a sentence, in sections, and for other programs."""

    name: str
    says: str
    sections: Iterable[Section]
    facts: Json
    is_whole: bool


@click.group("plan")
def command() -> None:
    """Work out channels, power or cables: the best there is, and why.

    Nothing is written unless `--apply` says so; what would change in the document is shown.
    """


def _shared(function: Callable[..., int]) -> Callable[..., int]:
    """The argument and the options that every plan has."""
    for wrap in (
        click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text."),
        click.option(
            "--apply", "apply_it", is_flag=True,
            help="Write the edit into the document; `thruline mend RIG --undo` takes it back.",
        ),
        click.argument("rig", type=A_FILE),
    ):  # fmt: skip
        function = wrap(function)
    return function


@command.command("channels", epilog=ENDS)
@_shared
@click.option(
    "--set",
    "wishes",
    multiple=True,
    metavar="UNIT=CHANNEL",
    help="Have this unit on this channel; may be given several times.",
)
def channels(rig: str, *, wishes: Sequence[str], apply_it: bool, as_json: bool) -> int:
    """A channel for each unit that listens, changing as little as can be.

    What is set stays where it can; free units follow the order of the sound. The plan is proved to
    be the best; where there is none, the smallest set of units that clash is named.
    """
    opened = _opened(rig, apply_it=apply_it)
    with only_ours():
        found = plan_rig_channels(opened, dict(read_pinned(one) for one in wishes))
    told = _Told(
        "channels", found.says, channel_sections(found), channel_json(found), found.plan is not None
    )
    return _give(opened, told, tried=found.tried, apply_it=apply_it, as_json=as_json)


@command.command("power", epilog=ENDS)
@_shared
@click.option("--no-chains", is_flag=True, help="Never put two units on one outlet.")
@click.option(
    "--anywhere",
    is_flag=True,
    help="Let leads go from the board to units that stand elsewhere, and back.",
)
def power(rig: str, *, no_chains: bool, anywhere: bool, apply_it: bool, as_json: bool) -> int:
    """An outlet for each unit: voltage, polarity, current at start-up, isolation, plug.

    Units that are not digital may share an outlet, where there are too few. What the supplies of
    the rig cannot serve is named, with the outlet to buy. Local codes and licensed practice come
    first.
    """
    opened = _opened(rig, apply_it=apply_it)
    with only_ours():
        found = plan_rig_power(opened, chains=not no_chains, anywhere=anywhere)
    told = _Told("power", found.says, power_sections(found), power_json(found), found.is_whole)
    return _give(opened, told, tried=found.tried, apply_it=apply_it, as_json=as_json)


class CableWishes(TypedDict):
    """What is asked for of a cable plan."""

    slack: int
    remake: bool
    sold: bool
    spools: Sequence[str]
    rests: Sequence[str]
    labels: str | None
    codes: bool
    apply_it: bool
    as_json: bool


@command.command("cables", epilog=ENDS)
@_shared
@click.option(
    "--slack",
    type=click.IntRange(0, 100),
    default=10,
    show_default=True,
    metavar="PERCENT",
    help="How much longer than its way a cable shall be.",
)
@click.option("--all", "remake", is_flag=True, help="Plan every cable anew, not what is missing.")
@click.option("--sold", is_flag=True, help="Take lengths that are sold; nothing is cut.")
@click.option(
    "--spool",
    "spools",
    multiple=True,
    metavar="[KIND=]MM",
    help=f"What a new spool holds, {SPOOL} mm if not said; for one kind: audio=3000.",
)
@click.option(
    "--rest", "rests", multiple=True, metavar="KIND=MM", help="A rest to be used up first."
)
@click.option("--labels", type=A_FILE, metavar="FILE", help="Write labels for both ends.")
@click.option("--codes", is_flag=True, help="Put a QR code on every label.")
def cables(rig: str, **wish: Unpack[CableWishes]) -> int:
    """The way, the length, the ends and the wiring of each cable, and a list to cut by.

    From the places of units and sockets on the board. A cable that is long enough stays; what is
    missing or too short is to be made. The list is cut from spools with the least waste.
    """
    if wish["labels"] is None:
        refuse_idle("codes", because="is for labels; add --labels FILE.html")
    if wish["sold"]:
        refuse_idle(
            "spools", "rests", because="is for lengths that are cut, and with --sold none is"
        )
    opened = _opened(rig, apply_it=wish["apply_it"])
    stock = _stock(wish["spools"], wish["rests"])
    kind = Wish(slack=wish["slack"], remake=wish["remake"], sold=wish["sold"])
    with only_ours():
        found = plan_rig_cables(opened, kind, stock)
    written = None
    if wish["labels"] is not None:
        write_page(wish["labels"], labels_html(cable_labels(found), codes=wish["codes"]))
        written = wish["labels"]
    facts = {**cables_json(found), "labels": written}
    told = _Told("cables", found.says, cable_sections(found), facts, found.is_whole)
    return _give(
        opened, told, tried=found.tried, apply_it=wish["apply_it"], as_json=wish["as_json"]
    )


def _opened(rig: str, *, apply_it: bool) -> Opened:
    """The rig; raises, before anything is worked out, when a plan cannot be written into it."""
    if apply_it:
        refuse_book(rig)
    return open_file(rig)


def _stock(spools: Sequence[str], rests: Sequence[str]) -> Stock:
    """What there is to cut from, as it was said."""
    sizes: dict[str, int] = {}
    for one in spools:
        name, length = _of_kind(one if "=" in one else f"={one}", "--spool")
        sizes |= dict.fromkeys([name] if name else CABLE_NAMES, length)
    left: dict[str, tuple[int, ...]] = {}
    for one in rests:
        name, length = _of_kind(one, "--rest")
        left[name] = (*left.get(name, ()), length)
    return Stock(spools=sizes, rests=left)


CABLE_NAMES = tuple(kind.name for kind in KINDS)


def _of_kind(words: str, option: str) -> tuple[str, int]:
    """`audio=3000`, read; no name before the sign means all kinds, for spools."""
    name, sign, length = words.partition("=")
    known = {one.lower(): one for one in CABLE_NAMES}
    if not sign or not is_number(length) or not 0 < int(length) <= 100_000:
        raise CannotUse(f'{option} "{words}" is no length in mm; one reads like audio=3000')
    if name.lower() not in known and (name or option == "--rest"):
        raise CannotUse(f'{option}: there is no cable "{name}", but {", ".join(known)}')
    return known.get(name.lower(), ""), int(length)


def _give(opened: Opened, told: _Told, *, tried: Tried, apply_it: bool, as_json: bool) -> int:
    """Show a plan, write it when asked for; the exit code."""
    changes = bool(tried.edits)
    if apply_it and changes:
        save(
            opened.document.file,
            tried.after.opened.document.text,
            before=opened.document.text,
        )
    if as_json:
        give_json(answer(f"plan {told.name}", **told.facts, written=apply_it and changes))
    else:
        _show(opened, told, tried=tried, written=apply_it and changes)
    return EXIT_CLEAN if told.is_whole else EXIT_FAULTS


def _show(opened: Opened, told: _Told, *, tried: Tried, written: bool) -> None:
    say(styled(told.says, "good" if told.is_whole else "fault"))
    for section in told.sections:
        say()
        say_all(section_rows(section, width=terminal_width()))
    if not tried.edits:
        return
    say()
    say(styled("What changes in the document", "strong"))
    say_all(f"    {row}" for row in tried.diff.splitlines()[2:])
    say(tried_words(tried))
    file = opened.document.file
    if written:
        say(f"written to {file}; `{typed_in('mend', file, '--undo')}` takes it back")
    elif is_book(file):
        say(f"nothing is written into a book; `{typed_in('open', file)}` first")
    else:
        say("nothing is written; `--apply` does it")
