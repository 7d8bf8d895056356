"""`workbench`: the rig on pages in a browser."""

from pathlib import Path
from typing import TypedDict, Unpack

import click

from thruline.app.frame import answer
from thruline.base.errors import EXIT_CLEAN
from thruline.cli.given import A_FILE, seconds
from thruline.cli.show import flush_output, give_json, say
from thruline.workbench.serve import Wish, folder_of, serve


class Words(TypedDict):
    """How it is to be served."""

    port: int
    share: bool
    no_browser: bool
    stop_after: float | None


@click.command("workbench", epilog="Exit code 0 when it was stopped.")
@click.argument("rig", type=A_FILE, default=".")
@click.option(
    "--port", type=click.IntRange(0, 65535), default=0, help="The port; any free one by default."
)
@click.option(
    "--share",
    is_flag=True,
    help="Let other devices on this network in, each by a link that works once.",
)
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@click.option(
    "--stop-after",
    type=seconds(0),
    metavar="SECONDS",
    help="Stop by itself, for scripts.",
)
@click.option("--json", "as_json", is_flag=True, help="Say where it is as one JSON object.")
def command(rig: str, *, as_json: bool, **wish: Unpack[Words]) -> int:
    """Work on a rig in a browser: plan, program and prove it on pages.

    RIG is a rig document, or a folder of them; without it, this folder. Only this machine can
    reach the pages unless --share is given. Every edit is in the file at once.
    """
    place = Path(rig)

    def ready(address: str) -> None:
        if as_json:
            give_json(answer("workbench", address=address, folder=str(folder_of(place))))
        else:
            say(f"The workbench is at {address}   (Ctrl-C stops it)")
        flush_output()

    serve(
        place,
        Wish(
            port=wish["port"],
            share=wish["share"],
            browse=not wish["no_browser"],
            seconds=wish["stop_after"],
        ),
        ready,
    )
    return EXIT_CLEAN
