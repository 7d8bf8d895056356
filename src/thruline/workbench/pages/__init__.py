"""Every page of the workbench, in the order of the work. A page appears by a line in here.

What a page shows is in the module of its name.
"""

from collections.abc import Mapping
from types import MappingProxyType

from thruline.workbench.page import Page

PAGES: Mapping[str, Page] = MappingProxyType(
    {
        one.name: one
        for one in (
            Page("line", "Line", "Does it arrive, in time?"),
            Page("presets", "Presets", "What does each preset do?"),
            Page("units", "Units", "How is each unit set, and what is plugged into what?"),
            Page(
                "charts",
                "Charts",
                "What does each model of unit answer to, and what is still missing?",
            ),
            Page("whole", "Rig", "What is this board, how does the sound go, and what is played?"),
            Page("sweeps", "Sweeps", "What does the pedal move?"),
            Page("board", "Board", "Where does everything stand, and which leads are needed?"),
            Page("bench", "Bench", "What is really on the wire?"),
            Page("find", "Find", "Which one thing is wrong?"),
            Page("book", "Book", "What does a stranger need to know of this board?"),
            Page("stage", "Stage", "This song, this preset, the next."),
            Page("revisions", "Revisions", "What was it before, and what has changed since?"),
        )
    }
)
"""The pages by name."""
