"""`prove`: hold every rule against a rig."""

import time

import click

from thruline.app.answer import answer, proof_json
from thruline.app.mend import State
from thruline.app.prove import prove_rig
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS, CannotUse
from thruline.binding import check_report
from thruline.cli.given import A_FILE
from thruline.cli.proof_text import proof_rows
from thruline.cli.show import give_json, progress, say_all
from thruline.proof.rulebook import rulebook
from thruline.wiring import open_file, write_page


@click.command(
    "prove",
    epilog="Exit code 0 when no fault stands, 1 when one does; risks, advice and what "
    "cannot be told are 0.",
)
@click.argument("rig", type=A_FILE)
@click.option("--report", type=A_FILE, metavar="FILE", help="A page to hand over, as HTML.")
@click.option(
    "--preset",
    "presets",
    type=int,
    multiple=True,
    metavar="NUMBER",
    help="A preset whose timing chart goes into the page; may be given several times. Without it, "
    "those that the findings are about, and the slowest.",
)
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, *, report: str | None, presets: tuple[int, ...], as_json: bool) -> int:
    """Prove a rig document.

    Does every message arrive, is it understood, is it in time, and is every preset the same every
    time? Each finding comes with its evidence and its mends.
    """
    if presets and report is None:
        raise CannotUse("--preset chooses what goes into a page; add --report FILE.html")
    if report is not None and not report.lower().endswith(".html"):
        raise CannotUse(f"{report} is not written: the page is HTML; name it FILE.html")
    if report is not None:
        check_report(report)
    began = time.perf_counter()
    opened = open_file(rig)
    with progress("proving", len(rulebook())) as done:
        case, proof = prove_rig(opened, step=lambda count, _total: done(count))
    took_ms = round((time.perf_counter() - began) * 1000)
    if report is not None:
        _write_page(report, State(opened=opened, case=case, proof=proof), presets)
    if as_json:
        facts = proof_json(opened, proof)
        give_json(answer("prove", **facts, took_ms=took_ms, report=report))
    else:
        say_all(proof_rows(opened, proof, took_ms=took_ms))
        say_all([f"written to {report}"] if report is not None else [])
    return EXIT_CLEAN if proof.is_clean else EXIT_FAULTS


def _write_page(file: str, state: State, presets: tuple[int, ...]) -> None:
    from thruline.app.report import report_page  # noqa: PLC0415 - 60 ms, and only for a page

    write_page(file, report_page(state, presets=presets))
