"""What does a model of unit answer to? Charts listed, looked at, shown as the standard sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pydantic import ValidationError

from thruline.app.frame import Json, answer, problem_json
from thruline.app.kinds import parse_chart
from thruline.app.load import chart_problems
from thruline.document.chart_shape import ChartHead, ChartShape
from thruline.document.parse import Parsed
from thruline.document.problems import BadDocument, Problem
from thruline.document.read import read
from thruline.papers.paper import Paper
from thruline.rig.chart import Chart
from thruline.rig.missing_facts import MissingFact, missing_facts
from thruline.rig.read_chart import read_chart
from thruline.workshop.face import Sheet, Shelf
from thruline.workshop.shelf import known_ids


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelved:
    """One chart on a shelf, by its head. `head` is None when it cannot be read.

    `is_hidden` tells that a shelf before this one has a chart of the same id, which is used.
    """

    id: str
    head: ChartHead | None
    file: str
    shelf: str
    is_hidden: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """A chart looked at: what is wrong with it, or the chart itself and the facts that it lacks.

    `more` counts the problems beyond those in `problems`.
    """

    file: str
    document: Parsed[ChartShape] | None
    chart: Chart | None
    problems: tuple[Problem, ...] = ()
    more: int = 0
    missing: tuple[MissingFact, ...] = ()

    @property
    def hint(self) -> str:
        """Why a rig would not find the chart, if it is called otherwise than its id; or nothing."""
        name = self.file.replace("\\", "/").rsplit("/", 1)[-1]
        if self.chart is None or name == f"{self.chart.id}.chart.toml":
            return ""
        return f"a rig finds it only when its file is called {self.chart.id}.chart.toml"


def shelved(shelves: Sequence[Shelf]) -> Iterator[Shelved]:
    """Every chart on the shelves: by id, and of one id the one that is used first."""
    for chart_id in known_ids(shelves):
        hides = False
        for shelf in shelves:
            sheet = shelf.find(chart_id)
            if sheet is not None:
                yield Shelved(
                    id=chart_id,
                    head=_head(sheet),
                    file=sheet.file,
                    shelf=shelf.says,
                    is_hidden=hides,
                )
                hides = True


def _head(sheet: Sheet) -> ChartHead | None:
    try:
        _, data = read(sheet.content, file=sheet.file)
        return ChartHead.model_validate(data.get("chart"))
    except (BadDocument, ValidationError):
        return None


def look_at(sheet: Sheet) -> Looked:
    """What is wrong with a chart, and what it lacks.

    Raises CannotUse when it is no chart at all, but a rig.
    """
    try:
        document = parse_chart(sheet.content, file=sheet.file)
    except BadDocument as bad:
        return Looked(
            file=sheet.file, document=None, chart=None, problems=bad.problems, more=bad.more
        )
    problems = tuple(chart_problems(document))
    if problems:
        return Looked(file=sheet.file, document=document, chart=None, problems=problems)
    chart = read_chart(document.shape)
    return Looked(file=sheet.file, document=document, chart=chart, missing=missing_facts(chart))


def list_json(found: Sequence[Shelved]) -> Json:
    """The charts on the shelves, for other programs."""
    return answer("chart list", charts=[_shelved_json(one) for one in found])


def show_json(looked: Looked, paper: Paper, *, written: Sequence[str]) -> Json:
    """One chart for other programs: the document as data, the sheet as rows, and what it lacks."""
    return answer(
        "chart show",
        file=looked.file,
        document=looked.document.data if looked.document else {},
        paper=paper_json(paper),
        missing=[missing_json(one) for one in looked.missing],
        written=list(written),
    )


def looked_json(looked: Sequence[Looked]) -> Json:
    """Charts that were looked at, for other programs."""
    charts = [
        {
            "file": one.file,
            "id": one.chart.id if one.chart else None,
            "usable": one.chart is not None,
            "hint": one.hint,
            "problems": [problem_json(problem) for problem in one.problems],
            "more": one.more,
            "missing": [missing_json(fact) for fact in one.missing],
        }
        for one in looked
    ]
    return answer("chart check", charts=charts)


def paper_json(paper: Paper) -> Json:
    """A paper as sections of sentences, a table and small print."""
    return {
        "title": paper.title,
        "about": list(paper.about),
        "sections": [
            {
                "title": section.title,
                "says": list(section.says),
                "head": list(section.table.head) if section.table else [],
                "rows": [list(row) for row in section.table.rows] if section.table else [],
                "notes": list(section.notes),
            }
            for section in paper.sections
        ],
    }


def missing_json(fact: MissingFact) -> Json:
    """A fact that a chart lacks, and what cannot be told without it."""
    return {"address": str(fact.address), "fact": fact.fact, "untold": fact.then}


def _shelved_json(one: Shelved) -> Json:
    head = one.head
    return {
        "id": one.id,
        "maker": head.maker if head else None,
        "model": head.model if head else None,
        "kind": head.kind if head else None,
        "file": one.file,
        "shelf": one.shelf,
        "usable": head is not None,
        "hidden": one.is_hidden,
    }
