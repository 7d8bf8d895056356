"""`audit`: what a controller really sends, held against the plan."""

from pathlib import Path
from typing import TypedDict, Unpack

import click

from thruline.app.audit import audit, audit_json, audit_rows, plan_for
from thruline.app.audit_live import Presses, cause_of, tick_of
from thruline.app.audit_report import audit_figures, audit_paper
from thruline.app.book import made_words, paper_book
from thruline.app.listen import lines_of
from thruline.audit.capture import Capture
from thruline.audit.meant import Meant
from thruline.audit.verdict import Verdict
from thruline.audit.words import fault_says
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS, CannotUse, WorldFailed
from thruline.bench.listen import Session, closed
from thruline.bench.telling import Teller
from thruline.binding import check_report, today, write_book, write_words
from thruline.cli.given import A_FILE, WITH_A_PORT, refuse_idle, seconds
from thruline.cli.show import complain, give_json, say_all
from thruline.papers.as_html import paper_html
from thruline.papers.as_markdown import paper_markdown
from thruline.papers.book import part_of
from thruline.proof.case import Case
from thruline.rig.whole import Rig
from thruline.wiring import (
    open_capture,
    open_file,
    open_inputs,
    open_log,
    time_of_day,
    wall_clock,
    write_page,
    write_rig,
)


class Wish(TypedDict):
    """What is asked for besides the rig and the capture."""

    port: tuple[str, ...]
    at: tuple[str, ...]
    before: str | None
    log: str | None
    patience: float
    report: str | None
    as_json: bool


@click.command("audit", epilog="Exit code 0 when all is as it was meant, 1 when something is not.")
@click.argument("rig", type=A_FILE)
@click.argument("capture", type=A_FILE, required=False)
@click.option(
    "--port",
    multiple=True,
    metavar="[SOCKET=]PORT",
    help="Listen now, in place of a capture; before it the socket that it is plugged into.",
)
@click.option("--at", multiple=True, metavar="SOCKET", help="Where each line was listened to.")
@click.option("--before", type=A_FILE, metavar="RIG", help="The version programmed before.")
@click.option("--log", type=A_FILE, metavar="FILE", help="Keep what is heard as a capture.")
@click.option("--patience", type=seconds(0.1), default=20.0, help="Seconds to wait for a press.")
@click.option(
    "--report",
    type=A_FILE,
    metavar="FILE",
    help="Write the report: .html with timing charts, .pdf, .md, or .txt as a new file.",
)
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, capture: str | None, **wish: Unpack[Wish]) -> int:
    """Hold what a controller really sends against the plan, and find the likeliest cause.

    From a capture, or live: then you are told which preset to press, and each is ticked off as it
    comes. All that differs is weighed together, and the likeliest mistake is named with its odds
    and with what to look at. What no mistake explains is said first. Ctrl-C ends the pressing.
    """
    if (capture is None) == (not wish["port"]):
        raise CannotUse("name a capture to look at, or a port to listen to with --port")
    if capture is not None:
        refuse_idle("log", "patience", because=WITH_A_PORT)
    if wish["report"] is not None:
        _check_report(wish["report"], wish["log"])
    case = Case(open_file(rig).rig)
    before = Case(open_file(wish["before"]).rig) if wish["before"] else None
    lost: WorldFailed | None = None
    if capture is not None:
        heard = open_capture(capture)
        meant = plan_for(case, heard.lines, at=wish["at"], before=before)
    else:
        lines = lines_of(wish["port"])
        names = tuple(line.name for line in lines)
        sockets = names if any(line.name != line.port for line in lines) else ()
        meant = plan_for(case, names, at=wish["at"] or sockets, before=before)
        heard, lost = _live(case.rig, meant, names, wish)
    found = audit(heard, meant)
    rows = [*audit_rows(found, meant, case.rig)]
    if wish["as_json"]:
        give_json(audit_json(found, meant, case.rig))
    else:
        say_all(rows)
    if wish["report"] is not None:
        _write(wish["report"], rows, found, heard=heard, meant=meant, case=case)
    if lost is not None:
        raise lost
    return EXIT_CLEAN if found.is_clean else EXIT_FAULTS


def _check_report(file: str, log: str | None) -> None:
    """Whether a report can be written; said now, not when the last preset was pressed."""
    if log is not None and Path(log).absolute() == Path(file).absolute():
        raise CannotUse(f"{file} cannot be both the report and the log; give one another name")
    check_report(file)


def _write(
    file: str, rows: list[str], found: Verdict, *, heard: Capture, meant: Meant, case: Case
) -> None:
    """The report, in the form that the name of the file asks for."""
    date = today()
    paper = audit_paper(found, meant, case.rig, made=made_words(date))
    match file.rpartition(".")[2].lower():
        case "html":
            write_page(file, paper_html(paper, audit_figures(found, heard, meant=meant, case=case)))
        case "pdf":
            write_book(file, paper_book(part_of("audit", paper), date=date), paper="a4")
        case "md":
            write_words(file, paper_markdown(paper))
        case _:
            write_rig(file, "\n".join([case.rig.name, "", *rows, ""]))


def _live(
    rig: Rig, meant: Meant, names: tuple[str, ...], wish: Wish
) -> tuple[Capture, WorldFailed | None]:
    """The person presses what is asked for, until all is pressed or Ctrl-C.

    What was heard, and what became of the log if it is not whole: the verdict does not need it.
    """
    clock = wall_clock()
    inputs = open_inputs([line.port for line in lines_of(wish["port"])], clock)
    session = Session(inputs, clock, lines=names, began=time_of_day())
    if wish["log"] is not None:
        session.keep(open_log(wish["log"]))
    teller = Teller(Case(rig), names)
    presses = Presses(
        session,
        meant,
        patience_us=round(wish["patience"] * 1_000_000),
        tell=lambda note: complain(teller.tell(note).says),
    )
    try:
        place = -1
        for place, step in enumerate(presses.asked()):
            if place:
                _tell(presses, place - 1, meant, rig)
            complain(f"now: {'move' if step.sweep else 'press'} {step.title}")
        _tell(presses, place, meant, rig)
    except KeyboardInterrupt:
        complain("no more presses")
    finally:
        lost = closed(session)
    return presses.capture, lost


def _tell(presses: Presses, place: int, meant: Meant, rig: Rig) -> None:
    """How the last press went, and the likeliest cause so far."""
    found = presses.so_far()
    tick = tick_of(found, place) if found is not None else None
    if found is None or tick is None or not tick.done:
        complain(f"  -     {meant.steps[place].title}: nothing came")
        return
    complain(f"  {'ok  ' if tick.is_right else 'DIFF'}  {meant.steps[place].title}")
    cause = cause_of(found)
    if cause is not None:
        says = ", and ".join(fault_says(one, meant, rig) for one in cause.faults)
        complain(f"        so far: {says} ({100 * cause.odds:.0f} %)")
