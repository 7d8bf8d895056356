"""`pretend`: a board that behaves as the model says, played into a capture."""

from typing import TypedDict, Unpack

import click

from thruline.app.audit import plan_for
from thruline.app.frame import answer
from thruline.app.pretend import FORMS, fault_of, play_pretend
from thruline.audit.capture_text import write_capture
from thruline.audit.words import fault_says
from thruline.base.errors import EXIT_CLEAN
from thruline.bench.pretend import Trouble
from thruline.cli.given import A_FILE, Amount
from thruline.cli.show import give_json, say
from thruline.proof.case import Case
from thruline.wiring import chance_from, open_file, write_rig

FORMS_TOLD = ", ".join(f'"{form}"' for form in FORMS.values())


class Wish(TypedDict):
    """What is asked for besides the files."""

    fault: tuple[str, ...]
    at: tuple[str, ...]
    before: str | None
    lost: float
    garbled: float
    seed: int
    as_json: bool


@click.command("pretend", epilog="Exit code 0.")
@click.argument("rig", type=A_FILE)
@click.argument("capture", type=A_FILE)
@click.option("--fault", multiple=True, metavar="WORDS", help=f"A mistake: {FORMS_TOLD}.")
@click.option("--at", multiple=True, metavar="SOCKET", help="Where one listens.")
@click.option("--before", type=A_FILE, metavar="RIG", help="The version programmed before.")
@click.option("--lost", type=Amount(0, 1), default=0.0, help="Share of messages lost.")
@click.option("--garbled", type=Amount(0, 1), default=0.0, help="Share of bytes garbled.")
@click.option("--seed", type=int, default=1, help="Chance that can be had again.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, capture: str, **wish: Unpack[Wish]) -> int:
    """Play a board that behaves as the model says, with mistakes to order.

    Every preset is pressed once and every pedal moved once, and what would be heard is written
    into a capture, for `audit`, `listen --replay`, and for practice.
    """
    case = Case(open_file(rig).rig)
    before = Case(open_file(wish["before"]).rig) if wish["before"] else None
    meant = plan_for(case, wish["at"], at=wish["at"], before=before)
    faults = [fault_of(text, meant) for text in wish["fault"]]
    trouble = Trouble(lost=wish["lost"], garbled=wish["garbled"])
    played = play_pretend(meant, faults, trouble=trouble, chance=chance_from(wish["seed"]))
    write_rig(capture, write_capture(played))
    said = [fault_says(one, meant, case.rig) for one in faults]
    if wish["as_json"]:
        give_json(answer("pretend", written=capture, faults=said, entries=len(played.entries)))
    else:
        for one in said:
            say(f"with: {one}")
        say(f"written to {capture}: {len(meant.steps)} presses and travels")
    return EXIT_CLEAN
