"""What does a controller do of which nobody has a document? Made from what it sends."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from thruline.app.learn_begin import begun_for
from thruline.app.learn_edits import learned_edits, whole_remarks
from thruline.app.learn_said import Remark, Said
from thruline.app.learn_text import with_remarks
from thruline.app.load import Opened, open_chart, open_rig
from thruline.app.prove import prove_rig
from thruline.audit.capture import Capture
from thruline.base.errors import CannotUse
from thruline.document.change import apply
from thruline.document.write import document_text
from thruline.learn.channels import OnChannel, channels_of
from thruline.learn.learned import Learned, learn
from thruline.learn.meaning import knows
from thruline.proof.engine import Proof
from thruline.rig.unit import Unit
from thruline.workshop.face import Sheet, Shelf
from thruline.workshop.shelf import known_ids, sheet_called


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedRig:
    """A rig document that was made of what was heard, the charts begun for it, and its proof."""

    learned: Learned
    channels: tuple[OnChannel, ...]
    text: str
    charts: Mapping[str, str]
    unknown: tuple[Remark, ...]
    opened: Opened
    proof: Proof


@dataclass(frozen=True, slots=True)
class _Fresh:
    """A shelf of the charts that were just begun."""

    texts: Mapping[str, str]

    def find(self, chart_id: str) -> Sheet | None:
        text = self.texts.get(chart_id)
        return None if text is None else Sheet(f"{chart_id}.chart.toml", text.encode())

    def ids(self) -> tuple[str, ...]:
        return tuple(sorted(self.texts))

    @property
    def says(self) -> str:
        return "the charts begun here"


def learn_captures(captures: Sequence[Capture], units: Mapping[int, Unit]) -> Learned:
    """What captures of one controller tell. Raises CannotUse when there is nothing in them."""
    found = learn(captures, lambda data: knows(units, data))
    if not found.presets and not found.sweeps:
        raise CannotUse(
            "nothing was heard that could be a press of a preset or the travel of a pedal: is the "
            "right port listened to, and the right cable plugged in?"
        )
    return found


def units_said(said: Said, board: Opened | None, shelves: Sequence[Shelf]) -> dict[int, Unit]:
    """The units that are known before anything is heard, by the channel they are addressed on.

    Raises CannotUse when a chart is not there.
    """
    found = _by_channel(board) if board is not None else {}
    for channel, one in said.units.items():
        if one.chart is not None:
            chart = open_chart(sheet_called(shelves, one.chart))
            found[channel] = Unit(
                id=one.id,
                chart=chart,
                name=one.id,
                order=channel,
                channel=channel,
                sent_on=channel,
                settings={},
                stated=frozenset(),
            )
    return found


def _by_channel(opened: Opened) -> dict[int, Unit]:
    found: dict[int, Unit] = {}
    for unit in opened.rig.units.values():
        if unit.sent_on is not None and unit.chart.listens:
            found.setdefault(unit.sent_on, unit)
    return found


def learned_rig(
    learned: Learned, said: Said, *, board: Opened | None, shelves: Sequence[Shelf], file: str
) -> LearnedRig:
    """The document: what was known of the board before, and what was learned, with its proof.

    Raises CannotUse when something that was said does not fit.
    """
    heard = channels_of(learned)
    begun = begun_for(learned, said, heard=heard, board=board, charts=known_ids(shelves))
    charts = {name: document_text(data) for name, data in begun.charts.items()}
    all_shelves = (_Fresh(charts), *shelves)
    opened = open_rig(begun.text, file=file, shelves=all_shelves)
    edits, remarks = [], [*begun.unknown]
    for edit, unknown in learned_edits(learned, said, opened=opened, units=_by_channel(opened)):
        edits += [edit] if edit else []
        remarks += unknown
    remarks += whole_remarks(learned, opened)
    text = with_remarks(apply(begun.text, edits, file=file), remarks, file=file)
    opened = open_rig(text, file=file, shelves=all_shelves)
    _, proof = prove_rig(opened)
    return LearnedRig(
        learned=learned,
        channels=heard,
        text=text,
        charts=charts,
        unknown=tuple(remarks),
        opened=opened,
        proof=proof,
    )
