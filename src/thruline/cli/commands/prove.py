"""`prove`: hold every rule against a rig."""

import time

import click

from thruline.app.answer import answer, proof_json
from thruline.app.prove import prove_rig
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS
from thruline.cli.proof_text import proof_rows
from thruline.cli.show import give_json, say_all
from thruline.wiring import open_file


@click.command(
    "prove",
    epilog="Exit code 0 when no fault stands, 1 when one does; risks and advice alone are 0.",
)
@click.argument("rig", type=click.Path())
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, *, as_json: bool) -> int:
    """Prove a rig document.

    Does every message arrive, is it understood, is it in time, and is every preset the same every
    time? Each finding comes with its evidence and its mends.
    """
    began = time.perf_counter()
    opened = open_file(rig)
    _, proof = prove_rig(opened)
    took_ms = round((time.perf_counter() - began) * 1000)
    if as_json:
        give_json(answer("prove", **proof_json(opened, proof), took_ms=took_ms))
    else:
        say_all(proof_rows(opened, proof, took_ms=took_ms))
    return EXIT_CLEAN if proof.is_clean else EXIT_FAULTS
