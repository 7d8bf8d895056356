"""The one place where faces are joined to the world. Importing it does nothing."""

import os
import random
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from pathlib import Path, PurePath

from thruline.app.frame import typed_in
from thruline.app.load import Opened, open_rig
from thruline.audit.capture import Capture
from thruline.base.errors import CannotUse
from thruline.bench.backup import Store
from thruline.bench.face import Log, Ports, WallClock
from thruline.bench.guard import Guarded
from thruline.bench.plugged import HeldInput, HeldOutput, pick_port, refuse_twice
from thruline.binding import BOOKS, open_book
from thruline.outside.earlier import put_back, write_keeping
from thruline.outside.files import read_bytes, write_atomically, write_new, write_raw
from thruline.outside.folders import make_folder, names_in
from thruline.outside.own_folder import fill_own_folder, open_own_folder
from thruline.outside.samples import AS_FOUND, FIRST_BOARD, ORCHARD_STREET, sample_text
from thruline.outside.shelves import ENDING, beside, own_shelf, sample_shelf
from thruline.workshop.face import Sheet, Shelf
from thruline.workshop.shelf import sheet_called

SERIAL = "serial:"
"""What the name of a serial line begins with, to tell it from a MIDI port."""
PAGES = (".html",)
DRAWINGS = (".svg",)
RECORDINGS = (".mid", ".midi")
PLAIN = (".syx", ".bin")
TABLES = (".csv",)
WORKSHOP_VARIABLE = "THRULINE_WORKSHOP"
"""Names another folder for the user's own workshop."""


def workshop_folder() -> Path:
    """The user's own workshop: where the system keeps data, or where `THRULINE_WORKSHOP` says."""
    named = os.environ.get(WORKSHOP_VARIABLE)
    if named:
        return Path(named)
    from platformdirs import user_data_path  # noqa: PLC0415 - only where no folder is named

    return user_data_path("thruline", appauthor=False)


def rigs_in(folder: Path) -> tuple[Path, ...]:
    """The rig documents in a folder, sorted. Raises WorldFailed when it cannot be looked into."""
    return tuple(folder / name for name in names_in(folder) if name.endswith(".rig.toml"))


def shelves_for(folder: Path) -> tuple[Shelf, ...]:
    """Where charts are looked up for a rig in this folder."""
    return (beside(folder), own_shelf(workshop_folder()), sample_shelf())


def chart_shelves() -> tuple[Shelf, ...]:
    """Where charts are looked up when no rig is named: here, in the workshop, in the samples."""
    return shelves_for(Path())


def open_file(file: str | Path) -> Opened:
    """Open a rig document on disk, or the one inside a book.

    Raises CannotUse when it is not there or cannot be used, WorldFailed when it cannot be read.
    """
    if is_book(file):
        found = open_book(file)
        return open_rig(found.document, file=str(file), shelves=(found.shelf,))
    return open_rig(read_bytes(Path(file)), file=str(file), shelves=shelves_for(Path(file).parent))


def is_book(file: str | Path) -> bool:
    """Whether a file is a book by its name; the rig inside can be read, and not written."""
    return Path(file).suffix.lower() in BOOKS


def refuse_book(file: str | Path) -> None:
    """Raise CannotUse, with what to do, when what is to be written into is a book."""
    if is_book(file):
        raise CannotUse(
            f"{file} is a book, and a book is not written into: unpack it with "
            f"`{typed_in('open', str(file))}`, and work on what that writes"
        )


def open_chart_sheet(word: str) -> Sheet:
    """The chart that a person names: by its file, or by its id on one of the shelves.

    Raises CannotUse when there is none, WorldFailed when it cannot be read.
    """
    place = Path(word)
    if word.endswith(".toml") or place.name != word or word in names_in(Path()):
        return Sheet(word, read_bytes(place))
    return sheet_called(chart_shelves(), word)


def open_sample(text: str, file: str) -> Opened:
    """Open the text of a packaged rig; only packaged charts are used."""
    return open_rig(text, file=file, shelves=(sample_shelf(),))


def demo_texts() -> tuple[str, str]:
    """The demonstration board as it was found, and as it was meant."""
    return sample_text(AS_FOUND), sample_text(ORCHARD_STREET)


def open_demo_folder(folder: str | Path) -> None:
    """Make the folder of the demonstration, or make sure that nothing in it is somebody's.

    Raises CannotUse when there is, WorldFailed when it cannot be made.
    """
    open_own_folder(Path(folder))


def fill_demo_folder(folder: str | Path, texts: Mapping[str, str]) -> None:
    """Write the files that the demonstration leaves, by name.

    Raises WorldFailed when one cannot be written.
    """
    fill_own_folder(Path(folder), texts)


def first_board_text() -> str:
    """The text of the board that a new rig starts from."""
    return sample_text(FIRST_BOARD)


def write_rig(file: str | Path, text: str) -> None:
    """Write a rig document that is not there yet.

    Raises CannotUse when there is one, or no folder for it; WorldFailed when it cannot be written.
    """
    write_new(Path(file), text)


def lay_beside(file: str | Path, charts: Mapping[str, bytes], *, replace: bool = False) -> None:
    """Write charts, by id, into the folder `charts` beside a rig document.

    Raises CannotUse when one is there already and is not to be replaced, or the document is a book;
    WorldFailed when one cannot be written.
    """
    refuse_book(file)
    folder = Path(file).parent / "charts"
    if charts:
        make_folder(folder)
    for chart_id, content in charts.items():
        place = folder / f"{chart_id}{ENDING}"
        (write_atomically if replace else write_new)(place, content.decode())


def write_chart(file: str | Path, text: str) -> None:
    """Write a chart that is not there yet, and the folder for it if only that is not there.

    Raises CannotUse when there is one, or no place for its folder; WorldFailed when it cannot be
    written.
    """
    make_folder(Path(file).parent)
    write_new(Path(file), text)


def write_document(file: str | Path, text: str) -> None:
    """Write a rig document in place of what is there, as the caller asks.

    Raises CannotUse when there is no folder for it or it is a book, WorldFailed when it cannot be
    written; what was there is then as it was.
    """
    refuse_book(file)
    write_atomically(Path(file), text)


def write_page(file: str | Path, text: str) -> None:
    """Write a page, in place of an earlier one.

    Raises CannotUse when the name is not that of a page (so that no rig can be lost by a slip) or
    there is no folder for it, WorldFailed when it cannot be written; what was there is then as it
    was.
    """
    refuse_other_kinds(Path(file), PAGES)
    write_atomically(Path(file), text)


def write_drawing(file: str | Path, text: str) -> None:
    """Write a drawing, in place of an earlier one; otherwise as `write_page`."""
    refuse_other_kinds(Path(file), DRAWINGS)
    write_atomically(Path(file), text)


def write_table(file: str | Path, text: str) -> None:
    """Write comma-separated values, in place of earlier ones.

    Raises CannotUse when the name is not that of such a file, WorldFailed when it cannot be
    written; what was there is then as it was.
    """
    refuse_other_kinds(Path(file), TABLES)
    write_atomically(Path(file), text)


def write_midi(file: str | Path, content: bytes) -> None:
    """Write the bytes of a Standard MIDI File, in place of an earlier one.

    Raises CannotUse when the name is not that of a MIDI file, WorldFailed when it cannot be
    written; what was there is then as it was.
    """
    refuse_other_kinds(Path(file), RECORDINGS)
    write_raw(Path(file), content)


def write_recordings(folder: str | PurePath, files: Mapping[str, bytes]) -> None:
    """Write MIDI files and plain bytes, by name, into a folder that is made if it is not there.

    Raises CannotUse when a name is not that of such a file or there is no place for the folder,
    WorldFailed when one cannot be written; what was there is then as it was.
    """
    for name in files:
        refuse_other_kinds(Path(name), (*RECORDINGS, *PLAIN))
    make_folder(Path(folder))
    for name, content in files.items():
        write_raw(Path(folder) / name, content)


def refuse_other_kinds(file: Path, endings: tuple[str, ...]) -> None:
    """Raise CannotUse when a name has none of these endings, so that nothing is lost by a slip."""
    if file.suffix.lower() not in endings:
        raise CannotUse(f"{file} is not written: its name should end in {' or '.join(endings)}")


def save(file: str | Path, text: str, *, before: str) -> None:
    """Write a rig document that was read as `before`, keeping that beside it to take back.

    Raises CannotUse when the file on disk is no longer `before` or is a book, WorldFailed when it
    cannot be written; the file is then as it was.
    """
    refuse_book(file)
    write_keeping(Path(file), text, before=before)


def take_back(file: str | Path) -> int:
    """Put back what stood in the document before the last `save`; how many more are kept.

    Raises CannotUse when there is no document, when nothing is kept, or when the document was
    changed since.
    """
    return put_back(Path(file))


def wall_clock() -> WallClock:
    """Time as it passes."""
    from thruline.outside.wall_clock import SystemClock  # noqa: PLC0415 - only the bench needs it

    return SystemClock()


def system_ports(clock: WallClock) -> Ports:
    """The MIDI ports of this computer.

    Raises WorldFailed when the port library is not installed, or no MIDI system runs.
    """
    from thruline.outside.midi_ports import SystemPorts  # noqa: PLC0415 - only the bench needs it

    return SystemPorts(clock)


def serial_ports(clock: WallClock) -> Ports:
    """Serial ports as MIDI lines. Raises WorldFailed when their library is not installed."""
    from thruline.outside.serial_lines import SerialLines  # noqa: PLC0415 - only the bench needs it

    return SerialLines(clock)


def open_inputs(words: Sequence[str], clock: WallClock) -> list[HeldInput]:
    """The ports that a person wants to listen to: parts of names, or `serial:` and a name.

    Raises CannotUse when a word means no port or several, WorldFailed when one cannot be opened.
    """
    found = []
    for ports, name in _picked(words, clock, what="input"):
        found.append(HeldInput(ports, name, clock))
    return found


def open_outputs(words: Sequence[str], clock: WallClock) -> list[Guarded]:
    """The ports that a person wants to send to, guarded; otherwise as `open_inputs`."""
    return [
        Guarded(HeldOutput(ports, name)) for ports, name in _picked(words, clock, what="output")
    ]


def open_restoring(word: str, clock: WallClock) -> HeldOutput:
    """A port without a guard, for a backup that a person confirms; otherwise as `open_outputs`."""
    ((ports, name),) = _picked([word], clock, what="output")
    return HeldOutput(ports, name)


def rig_called(file: str | Path) -> str:
    """What the workbench calls a rig, by its document's file; a book is called as its document."""
    place = Path(file)
    if place.suffix.lower() in BOOKS:
        return place.stem
    name = place.name.removesuffix(".rig.toml").removesuffix(".toml")
    return name if name.strip(".") else "rig"  # one of dots alone would lead to another folder


def backup_store(rig: str) -> Store:
    """Where backups of a rig's units are kept, in the workshop; by its name on the workbench."""
    from thruline.outside.backups import BackupFolder  # noqa: PLC0415 - only the bench needs it

    return BackupFolder(workshop_folder() / "backups", rig)


def _picked(words: Sequence[str], clock: WallClock, *, what: str) -> list[tuple[Ports, str]]:
    """For each word the system of ports that it means, and the name there."""
    system: Ports | None = None
    found: list[tuple[Ports, str]] = []
    for word in words:
        if word.startswith(SERIAL):
            ports, name = serial_ports(clock), word.removeprefix(SERIAL)
            if not name or (os.name != "nt" and not Path(name).exists()):
                name = pick_port(ports.inputs(), name, what="serial line")
        else:
            ports = system = system or system_ports(clock)
            names = system.inputs() if what == "input" else system.outputs()
            name = pick_port(names, word, what=what)
        found.append((ports, name))
    refuse_twice([name for _, name in found])
    return found


def open_log(file: str | Path) -> Log:
    """A capture file to be written while one listens.

    Raises CannotUse when there is one of that name, WorldFailed when it cannot be made.
    """
    from thruline.outside.capture_files import LogFile  # noqa: PLC0415 - only the bench needs it

    return LogFile(Path(file))


def open_capture(file: str | Path) -> Capture:
    """A capture that was kept, a MIDI file, or plain bytes.

    Raises CannotUse when it is none of these, WorldFailed when it cannot be read.
    """
    from thruline.outside.capture_files import read_capture_file  # noqa: PLC0415 - as above

    return read_capture_file(Path(file))


def chance_from(seed: int) -> Callable[[], float]:
    """Numbers from 0 up to 1 as chance gives them; the same seed gives the same again."""
    return random.Random(seed).random  # noqa: S311 - to try things with, not to keep secrets


def time_of_day() -> str:
    """Date and time here, as a person writes it down."""
    return datetime.now().astimezone().strftime("%Y-%m-%d %H:%M:%S")
