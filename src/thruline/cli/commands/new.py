"""`new`: a rig document to start from."""

from collections.abc import Iterator
from pathlib import Path

import click

from thruline.app.frame import typed_in
from thruline.app.load import open_rig
from thruline.app.new_rig import NewRig, board_name, file_name, first_board, new_json
from thruline.app.prove import prove_rig
from thruline.base.errors import EXIT_CLEAN
from thruline.cli.given import A_FILE
from thruline.cli.show import give_json, say_all, styled
from thruline.papers.proof_words import summary
from thruline.wiring import first_board_text, shelves_for, write_rig


@click.command(
    "new", epilog="Exit code 0 when the document was written, 2 when there was one of that name."
)
@click.argument("file", metavar="NAME.rig.toml", type=A_FILE)
@click.option("--name", help="What the rig is called; otherwise its file's name, in words.")
@click.option("--controller", metavar="CHART", help="The id of the chart of your foot controller.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(file: str, *, name: str | None, controller: str | None, as_json: bool) -> int:
    """Write a rig document to start from: small, complete and right, and it explains itself.

    An existing file is never overwritten.
    """
    place = file_name(file)
    shelves = shelves_for(Path(place).parent)
    text = first_board(
        first_board_text(), name or board_name(place), controller=controller, shelves=shelves
    )
    opened = open_rig(text, file=place, shelves=shelves)
    _, proof = prove_rig(opened)
    write_rig(place, text)
    made = NewRig(file=place, opened=opened, proof=proof)
    if as_json:
        give_json(new_json(made))
    else:
        say_all(_told(made))
    return EXIT_CLEAN


def _told(made: NewRig) -> Iterator[str]:
    rig, file = made.opened.rig, made.file
    yield f"{styled('WRITTEN', 'good')}  {file}"
    yield f"{rig.name}: {len(rig.units)} units; {summary(made.proof)}"
    if made.proof.findings:
        yield "this rig was made for another controller: what does not fit yours, `prove` tells"
    yield ""
    yield "next:"
    steps = {
        f"open {file} in any text editor": "its comments say what everything is for",
        typed_in("prove", file): "after every change: what does not fit, and why",
        "thruline chart list": "the models there are charts of",
        typed_in("chart", "embed", file): "charts beside the rig, to send or to change them",
    }
    width = max(map(len, steps))
    yield from (f"  {step.ljust(width)}  {why}" for step, why in steps.items())
