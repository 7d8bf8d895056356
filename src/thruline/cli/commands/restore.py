"""`restore`: a backup sent into its unit again."""

import click

from thruline.app.frame import answer
from thruline.app.gather import pick_unit
from thruline.base.errors import EXIT_CLEAN, CannotUse
from thruline.base.measures import shown_ms
from thruline.bench.backup import lasts_us, look_at_port, paced, read_backup, restore
from thruline.cli.given import A_FILE
from thruline.cli.letting_go import until_the_end
from thruline.cli.show import ask, complain, give_json, say
from thruline.midi.words import messages_says
from thruline.wiring import backup_store, open_file, open_restoring, rig_called, wall_clock


@click.command("restore", epilog="Exit code 0; 2 when it does not verify or is not confirmed.")
@click.argument("rig", type=A_FILE)
@click.argument("unit")
@click.argument("name")
@click.option("--port", metavar="PORT", help="Where the unit's MIDI IN is reached.")
@click.option("--try", "only_try", is_flag=True, help="Verify it; send nothing.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
def command(
    rig: str, unit: str, name: str, *, port: str | None, only_try: bool, as_json: bool
) -> int:
    """Send a backup into its unit again, once you have named the unit.

    What is in the unit's memory now is lost. A backup whose hash, ends or checksum are not right is
    never sent. Let nothing else be on the line meanwhile: no clock, no pedals, no soft thru loop.
    """
    opened = open_file(rig)
    found = pick_unit(opened, unit)
    backup = read_backup(*backup_store(rig_called(rig)).fetch(unit, name))
    if backup.chart != found.chart.id:
        raise CannotUse(
            f'"{name}" was kept of a {backup.chart}, and {unit} is a {found.chart.id} now; not sent'
        )
    backup.look_at_rig(opened.rig.name)
    plan = paced(backup.messages)
    takes = shown_ms(lasts_us(plan))
    if port is None and not only_try:
        raise CannotUse("name the port to send to with --port, or verify only with --try")
    clock = wall_clock()
    out = open_restoring(port, clock) if port is not None else None
    if out is not None:
        until_the_end([out])
        look_at_port(backup, out)
    if out is not None and not only_try:
        complain(f"This overwrites the memory of {found.name}, and takes {takes}.")
        complain(f'"{name}": {backup.rig_says}, {backup.date}.')
        typed = ask(f'Type the id of the unit ("{unit}") to send it:')
        try:
            restore(backup, out, clock, confirmed=lambda: typed)
        except KeyboardInterrupt:
            complain(
                f"The memory of {found.name} may be half old and half new; send the backup again."
            )
            raise
    if as_json:
        give_json(
            answer("restore", sent=not only_try, messages=len(plan), facts=dict(backup.facts))
        )
    else:
        did = "verifies; nothing was sent" if only_try else f"was sent to {found.name}"
        size = messages_says(len(plan))
        say(f'"{name}" of {unit}, {size} of {backup.date}, {backup.rig_says}, {did}')
    return EXIT_CLEAN
