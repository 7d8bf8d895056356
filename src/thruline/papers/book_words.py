"""What a book says of itself: how it is read, and what can hurt."""

from collections.abc import Iterable

from thruline.papers.paper import Paper, Section, table_of
from thruline.plan.cable_kinds import KINDS

READ = (
    ("a box", "to tick when it is done"),
    ("channels", "count from 1 to 16, as people count them"),
    ("on the wire", "the number in the message, from 0; a screen may show another"),
    ("times", "ms (thousandths of a second) after a switch was pressed"),
    ("measures", "mm; x to the right, y from the back edge of the board to the player"),
    ("page 12", "where the thing is told; in a file it can be followed"),
    ("cannot be told", "a fact is missing; it is never taken as right"),
    ("made with colour", "and readable without: a word, a number or a shape always says it too"),
)
FIRST = (
    "Something fails: take the fault-finding card. The board is built up anew: take the bring-up "
    "card. A unit was changed or reset: take the settings sheet. The controller has forgotten: "
    "take the programming sheet."
)
INSIDE = (
    "The document of the board and the chart of every model are inside this file. The command "
    '"thruline open BOOK.pdf" puts them back on a disk, and every command that reads a rig reads '
    "the book as well."
)

MAINS = (
    "Switch off and pull the mains plug before anything is rewired. Never open a mains supply or "
    "a mains plug, and never lift the protective earth. Mains work is for those who are licensed "
    "for it where you are."
)
POLARITY = (
    "Measure voltage, plus and minus at the plug before it goes into a unit. A plug that fits says "
    "nothing of what is on it; the wrong polarity or voltage can destroy a unit and start a fire."
)
SPARE = (
    "Some MIDI leads carry power on contacts that the standard leaves empty. Never let one meet a "
    "socket that does not expect it, and never put phantom power on such a lead."
)
SOUND = (
    "Begin with the lowest level. A wrong preset, a sweep of gain or feedback can be painfully "
    "loud at once: protect your hearing, and never wear headphones while something is found out."
)
CODES = "Local codes and licensed practice come before anything that stands in this book."
CAUTIONS = (
    ("Mains", MAINS),
    ("Voltage and polarity", POLARITY),
    ("Power on MIDI leads", SPARE),
    ("Sound level", SOUND),
    ("The law, and who may do what", CODES),
)


def reading() -> Paper:
    """How the book is read, and where to begin."""
    letters = [(kind.letter, kind.name, kind.wire) for kind in KINDS]
    return Paper(
        title="How to read this book",
        about=(FIRST, INSIDE),
        sections=(
            Section(title="Words and marks", table=table_of(("you read", "it means"), READ)),
            Section(
                title="Numbers of cables",
                says=("A letter for the kind, then a number; the labels at both ends say it too.",),
                table=table_of(("", "kind", "wire"), letters),
            ),
        ),
    )


def cautions(more: Iterable[str] = ()) -> Paper:
    """What can hurt people, ears and gear; `more` is what this board adds."""
    told = [Section(title=title, says=(says,)) for title, says in CAUTIONS]
    added = tuple(dict.fromkeys(more))
    if added:
        told.append(Section(title="For the work in this book", says=added))
    return Paper(title="Before you touch anything", sections=tuple(told))
