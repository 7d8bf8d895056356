"""`backup`: a unit's memory, received and kept."""

from typing import TypedDict, Unpack

import click

from thruline.app.frame import answer
from thruline.app.gather import gather, gathered, pick_unit, refuse_without_midi
from thruline.app.gathering import LOOK_TOO, QUIET_US, waits_says
from thruline.base.errors import EXIT_CLEAN, CannotUse
from thruline.bench.backup import backup_from
from thruline.bench.listen import Session
from thruline.cli.given import A_FILE, WITH_A_PORT, refuse_idle, seconds
from thruline.cli.show import complain, give_json, say
from thruline.wiring import (
    backup_store,
    open_capture,
    open_file,
    open_inputs,
    rig_called,
    time_of_day,
    wall_clock,
)


class Wish(TypedDict):
    """What is asked for besides rig and unit."""

    port: str | None
    replay: str | None
    name: str | None
    patience: float
    as_json: bool


@click.command("backup", epilog="Exit code 0; 2 when no dump came, or it came broken.")
@click.argument("rig", type=A_FILE)
@click.argument("unit")
@click.option("--port", metavar="PORT", help="Where the unit's MIDI OUT comes in.")
@click.option("--replay", type=A_FILE, metavar="FILE", help="A capture of the dump, not a port.")
@click.option("--name", metavar="TEXT", help="What to call it; the date by default.")
@click.option("--patience", type=seconds(0.1), default=60.0, help="Seconds until it must begin.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(rig: str, unit: str, **wish: Unpack[Wish]) -> int:
    """Receive a unit's memory as it dumps it, check it, and keep it.

    Start the dump in the unit's own menu while this waits. The dump is kept only if every message
    of it is whole; its checksum is recognised by trying the kinds that makers use.
    """
    opened = open_file(rig)
    found = pick_unit(opened, unit)
    refuse_without_midi(found)
    if (wish["port"] is None) == (wish["replay"] is None):
        raise CannotUse("name the port that the dump comes in on with --port, or a --replay")
    if wish["replay"] is not None:
        refuse_idle("patience", because=WITH_A_PORT)
    date = time_of_day()
    name, store = wish["name"] or date.replace(":", "."), backup_store(rig_called(rig))
    store.look_at_name(unit, name)  # the dump would come for nothing
    if wish["replay"] is not None:
        events = list(gathered(open_capture(wish["replay"])))
    else:
        clock = wall_clock()
        session = Session(open_inputs([wish["port"] or ""], clock), clock, lines=["dump"])
        complain(f"start the dump on {found.name} now; {waits_says()}")
        patience_us = round(wish["patience"] * 1_000_000)
        events = gather(session, patience_us=patience_us, quiet_us=QUIET_US)
    backup = backup_from(
        events, unit=unit, name=name, chart=found.chart.id, date=date, rig=opened.rig.name
    )
    file = store.keep(unit, name, raw=backup.raw, facts=backup.facts)
    if wish["port"] is not None:
        complain(f"{LOOK_TOO}.")
    if wish["as_json"]:
        count = len(backup.messages)
        give_json(answer("backup", written=file, messages=count, facts=dict(backup.facts)))
        return EXIT_CLEAN
    say(f'kept as "{name}" of {unit}: {backup.size_says}')
    say(f"checksum: {backup.guarding.kind.value}; file: {file}")
    return EXIT_CLEAN
