"""The parts of a rig's book, each made when it is asked for, from the same rows as the sheets."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from types import MappingProxyType

from thruline.app.load import Opened
from thruline.app.locate import Field, card_field
from thruline.app.mend import State, state_of
from thruline.app.plan_cables import CAUTION as CABLES_CAUTION
from thruline.app.plan_cables import CableSet, Stock, cable_sections, plan_rig_cables
from thruline.app.plan_power import CAUTIONS as POWER_CAUTIONS
from thruline.app.plan_power import OutletPlan, plan_rig_power, power_sections
from thruline.app.report import telling_presets
from thruline.app.stage_view import stage_json
from thruline.app.trace import trace
from thruline.app.trace_paper import heading
from thruline.base.measures import shown_ms
from thruline.find.card import card_for
from thruline.papers.board_drawing import board_drawings, units_section
from thruline.papers.book import Block, Drawing, Part, part_of
from thruline.papers.book_faces import for_print
from thruline.papers.book_words import cautions, reading
from thruline.papers.bring_up_card import bring_up_card
from thruline.papers.colours import PRINT
from thruline.papers.fault_card import fault_card
from thruline.papers.paper import Paper, Section, See, Table, table_of
from thruline.papers.programming_sheet import programming_sheet
from thruline.papers.proof_paper import proof_paper
from thruline.papers.setlist import Piece, Step, setlist, stage_sheets
from thruline.papers.settings_sheet import settings_sheet
from thruline.papers.sweep_drawing import sweep_blocks
from thruline.papers.text_width import text_width
from thruline.papers.timing_layout import NAME, layout_of
from thruline.papers.timing_svg import timing_svg
from thruline.papers.timing_words import headline
from thruline.path.words import hops_by_name
from thruline.plan.cables import Wish
from thruline.timing.picture import Picture

CHART_WIDTH = 1000
"""Pixels of a timing chart in the book; on its side a page makes them some 700 points."""


@dataclass(frozen=True)  # without slots: what several parts need is made once
class Material:
    """A rig, and what its papers are made of. `made` says when, and by which version.

    `before` is the same of an earlier state, from which plans are taken over; it should have none
    itself, or all of them are kept.
    """

    state: State
    made: str = ""
    before: "Material | None" = None

    @cached_property
    def _like(self) -> "Material | None":
        """The material before, where the board is still the same: its plans are then as well."""
        like = self.before
        same = like is not None and like.state.case.board is self.state.case.board
        return like if same else None

    @property
    def opened(self) -> Opened:
        """The rig."""
        return self.state.opened

    @cached_property
    def cables(self) -> CableSet:
        """Its cables, numbered."""
        if self._like is not None:
            return replace(self._like.cables, opened=self.opened)
        return plan_rig_cables(self.opened, Wish(), Stock(spools={}, rests={}))

    @cached_property
    def power(self) -> OutletPlan:
        """Its power plan."""
        if self._like is not None:
            return replace(self._like.power, opened=self.opened)
        return plan_rig_power(self.opened)

    @cached_property
    def field(self) -> Field:
        """What its fault-finding card is made with. Raises CannotUse without a controller."""
        known = None if self._like is None else self._like.__dict__.get("field")
        return card_field(self.state.case, self.state.proof, known)

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """The set, in the order of the night."""
        return tuple(
            Piece(
                name=song["name"],
                tempo=song["tempo"],
                steps=tuple(
                    Step(number=one["number"], name=one["name"], about=one["about"])
                    for one in song["steps"]
                ),
            )
            for song in stage_json(self.opened)["songs"]
        )


def material_for(opened: Opened, made: str = "") -> Material:
    """The rig, proved."""
    return Material(state_of(opened), made)


def settings_paper(it: Material) -> Paper:
    """What is set on each unit."""
    return settings_sheet(it.state.case.board)


def programming_paper(it: Material) -> Paper:
    """What is typed into the controller."""
    return programming_sheet(it.opened.rig, it.state.case)


def cables_paper(it: Material) -> Paper:
    """Which cables there are, and how to cut and wire those that are to be made."""
    return Paper(
        title=f"Cable list: {it.opened.rig.name}",
        about=(f"{it.cables.says}.",),
        sections=tuple(cable_sections(it.cables)),
    )


def power_paper(it: Material) -> Paper:
    """Which outlet for which unit."""
    return Paper(
        title=f"Power plan: {it.opened.rig.name}",
        about=(f"{it.power.says}.",),
        sections=tuple(power_sections(it.power)),
    )


def bring_up_paper(it: Material) -> Paper:
    """The first power-up."""
    return bring_up_card(it.state.case.board, it.cables.cables)


def faults_paper(it: Material) -> Paper:
    """The first checks when it fails. A rig without a controller has none."""
    rig = it.opened.rig
    if rig.controller is None:
        says = "This rig has no controller yet: without one nothing can be looked for step by step."
        return Paper(title=f"{rig.name}: when it fails", about=(says,), sections=())
    return fault_card(rig.name, card_for(it.field))


def setlist_paper(it: Material) -> Paper:
    """The songs of the night."""
    return setlist(it.opened.rig.name, it.pieces)


def proof_part(it: Material) -> Paper:
    """What was proved."""
    return proof_paper(it.opened.rig.name, it.state.proof, made=it.made)


def _reading(_it: Material) -> Part:
    return part_of("reading", reading())


def _cautions(_it: Material) -> Part:
    return part_of("cautions", cautions((CABLES_CAUTION, *POWER_CAUTIONS)))


def _board(it: Material) -> Part:
    rig = it.opened.rig
    drawn = tuple(board_drawings(rig, it.cables.cables))
    blocks: tuple[Block, ...] = (units_section(rig), *drawn)
    return Part(name="board", title="The board", blocks=blocks)


def _line(it: Material) -> Part:
    says = "How messages reach each unit, and when all is right after a press."
    blocks = tuple(_line_blocks(it))
    return Part(name="line", title="The line, and its timing", says=(says,), blocks=blocks)


def _line_blocks(it: Material) -> Iterator[Block]:
    rig, case = it.opened.rig, it.state.case
    if rig.controller is None:
        yield Section(title="No controller", says=("Nothing sends yet: there is no line.",))
        return
    yield Section(title="How messages reach each unit", table=_ways(it), about="line")
    if rig.presets:
        rows = [
            (
                one.title,
                shown_ms(case.run(one).right_us),
                See("programming", f"preset:{one.number}"),
            )
            for one in rig.presets
        ]
        yield Section(
            title="When all is right",
            says=("Counted from the press of the switch; composed in the best order.",),
            table=table_of(("preset", "all right at", "its rows"), rows),
        )
    for number in telling_presets(it.state):
        yield _timing(it, number)


def _ways(it: Material) -> Table | None:
    """The way of messages to each unit that listens."""
    rig, case = it.opened.rig, it.state.case
    hearing, routing = case.hearing, case.board.routing
    rows = []
    for unit in rig.units.values():
        if unit is rig.controller or not unit.chart.listens:
            continue
        found = hearing.routes_between(rig.controller.id, unit.id) if rig.controller else ()
        routes = [one for one in found if routing.takes(unit.id, one)]
        way = "hears nothing of it"
        if routes:
            way = ", ".join(hops_by_name(rig.units, routes[0].hops))
        if len(routes) > 1:
            way += f" (and {len(routes) - 1} more)"
        rows.append((unit.name, "" if unit.sent_on is None else str(unit.sent_on), way))
    return table_of(("unit", "channel", "way from the controller"), rows)


def _timing(it: Material, number: int) -> Drawing:
    found = trace(it.state.case, number)
    drawn = timing_svg(found.picture, palette=PRINT, width=CHART_WIDTH, name=f"book-{number}")
    svg, width, height = for_print(drawn)
    return Drawing(
        title=f"Timing chart: preset {found.preset.title}",
        svg=svg,
        width=width,
        height=height,
        alt=headline(found.picture),
        says=f"{heading(found)}.{_in_full(found.picture)}",
        wide=True,
        about=f"timing:{number}",
    )


def _in_full(picture: Picture) -> str:
    """The names that a chart has no room for."""
    room = layout_of(picture, width=CHART_WIDTH, legend_rows=0).names_width
    cut = [row.name for row in picture.rows
           if text_width(row.name, NAME.size, bold=NAME.bold) > room]  # fmt: skip
    return f" In full, from the top: {'; '.join(cut)}." if cut else ""


def _sweeps(it: Material) -> Part | None:
    blocks = tuple(sweep_blocks(it.opened.rig))
    says = "What each pedal moves, from heel to toe."
    return Part(name="sweeps", title="Sweeps", says=(says,), blocks=blocks) if blocks else None


def _cables(it: Material) -> Part:
    paper = cables_paper(it)
    every = tuple(cable_sections(it.cables, every=True))
    return Part(name="cables", title="Cables", says=paper.about, blocks=every)


def _stage(it: Material) -> Part | None:
    sheets = stage_sheets(it.pieces)
    return Part(name="stage", title="Stage sheets", blocks=sheets) if sheets else None


def _setlist(it: Material) -> Part | None:
    return _titled("setlist", "Setlist", setlist_paper)(it) if it.pieces else None


def _titled(
    name: str, title: str, paper: Callable[[Material], Paper]
) -> Callable[[Material], Part]:
    """A paper as a part; a book says once whose it is."""
    return lambda it: replace(part_of(name, paper(it)), title=title)


PARTS: Mapping[str, Callable[[Material], Part | None]] = MappingProxyType(
    {
        "reading": _reading,
        "cautions": _cautions,
        "board": _board,
        "line": _line,
        "bring-up": _titled("bring-up", "Bring-up card", bring_up_paper),
        "faults": _titled("faults", "Fault-finding card", faults_paper),
        "settings": _titled("settings", "Settings sheet", settings_paper),
        "programming": _titled("programming", "Programming sheet", programming_paper),
        "sweeps": _sweeps,
        "cables": _cables,
        "power": _titled("power", "Power plan", power_paper),
        "setlist": _setlist,
        "stage": _stage,
        "proof": _titled("proof", "Proof", proof_part),
    }
)
"""Every part by its name, in the order in which they stand; None where a rig has nothing for it."""
