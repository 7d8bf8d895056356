"""`chart`: the charts on the shelves, one as the standard sheet, problems, and copies of them."""

from collections.abc import Iterator

import click

from thruline.app.chart import Looked, Shelved, list_json, look_at, looked_json, shelved, show_json
from thruline.app.chart_copy import copy_json, copy_of, id_of_file
from thruline.app.embed import Embedded, Laid, embed_json, embedding
from thruline.app.frame import typed_in
from thruline.base.errors import EXIT_CANNOT_USE, EXIT_CLEAN
from thruline.cli.given import A_FILE
from thruline.cli.paper_text import paper_rows, table_rows
from thruline.cli.show import give_json, say, say_all, styled
from thruline.document.problems import BadDocument, shown_problems
from thruline.papers.as_csv import paper_csv
from thruline.papers.as_html import paper_html
from thruline.papers.implementation_chart import implementation_chart
from thruline.papers.paper import Table
from thruline.wiring import (
    chart_shelves,
    lay_beside,
    open_chart_sheet,
    open_file,
    refuse_book,
    write_chart,
    write_page,
    write_table,
)

AS_JSON = click.option("--json", "as_json", is_flag=True, help="One JSON object instead of text.")
CHART = "ID_OR_FILE"


@click.group("chart", epilog="Exit code 2 when a chart cannot be used.")
def command() -> None:
    """Show, list or check charts: each holds what is known of one model of unit.

    A chart is named by its file, or by its id; ids are looked up in the folder `charts` here, in
    your workshop, and among the samples that come with thruline.
    """


@command.command("list", epilog="Exit code 0.")
@click.option("--kind", help="Only charts whose kind contains this word, as in --kind delay.")
@AS_JSON
def list_charts(kind: str | None, *, as_json: bool) -> int:
    """List the charts on the shelves: id, maker and model, kind, and where each lies."""
    found = [one for one in shelved(chart_shelves()) if _is_kind(one, kind)]
    if as_json:
        give_json(list_json(found))
    elif found:
        say_all(table_rows(Table(("chart", "model", "kind", "where it lies"), _listed(found))))
        say()
        count = "1 chart" if len(found) == 1 else f"{len(found)} charts"
        say(f"{count}; `thruline chart show ID` shows one")
    else:
        say(f'no chart is of the kind "{kind}"; `thruline chart list` shows them all')
    return EXIT_CLEAN


def _is_kind(one: Shelved, kind: str | None) -> bool:
    return kind is None or (one.head is not None and kind.lower() in one.head.kind.lower())


def _listed(found: list[Shelved]) -> tuple[tuple[str, ...], ...]:
    return tuple(
        (
            one.id,
            f"{one.head.maker} {one.head.model}" if one.head else "?",
            one.head.kind
            if one.head
            else f"cannot be read: {typed_in('chart', 'check', one.file)}",
            one.shelf + (" (not used: see the row above)" if one.is_hidden else ""),
        )
        for one in found
    )


@command.command("show", epilog="Exit code 2 when the chart cannot be used, otherwise 0.")
@click.argument("chart", metavar=CHART)
@click.option("--v2", "three_parts", is_flag=True, help="The sheet of version 2, in three parts.")
@click.option("--html", type=A_FILE, metavar="FILE", help="Write it as a page to print.")
@click.option("--csv", "table", type=A_FILE, metavar="FILE", help="Write its tables as CSV.")
@AS_JSON
def show_chart(
    chart: str, *, three_parts: bool, html: str | None, table: str | None, as_json: bool
) -> int:
    """Show a chart as the standard implementation chart, and what that sheet has no room for.

    That is: how labels become bytes, values in all their forms, how long a program takes to load,
    the unit's own menu, sockets, power, and where every fact comes from.
    """
    looked = look_at(open_chart_sheet(chart))
    if looked.chart is None:
        raise BadDocument(looked.problems, more=looked.more)
    paper = implementation_chart(looked.chart, three_parts=three_parts)
    if html is not None:
        write_page(html, paper_html(paper))
    if table is not None:
        write_table(table, paper_csv(paper))
    written = [file for file in (html, table) if file is not None]
    if as_json:
        give_json(show_json(looked, paper, written=written))
        return EXIT_CLEAN
    say_all([f"written to {file}" for file in written] or paper_rows(paper))
    if looked.missing:
        say()
        check = typed_in("chart", "check", chart)
        say(f"{len(looked.missing)} facts are not given; `{check}` lists them")
    return EXIT_CLEAN


@command.command(
    "check", epilog="Exit code 2 when a chart cannot be used; missing facts alone are 0."
)
@click.argument("charts", metavar=f"{CHART}...", nargs=-1, required=True)
@AS_JSON
def check_charts(charts: tuple[str, ...], *, as_json: bool) -> int:
    """Tell what is wrong with charts, then what they do not say and what cannot be told for it.

    Manuals leave things out: a missing fact is no fault of a chart.
    """
    looked = [look_at(open_chart_sheet(chart)) for chart in charts]
    if as_json:
        give_json(looked_json(looked))
    else:
        for place, one in enumerate(looked):
            say_all([""] if place else [])
            say_all(_looked(one))
    return EXIT_CLEAN if all(one.chart for one in looked) else EXIT_CANNOT_USE


def _looked(one: Looked) -> Iterator[str]:
    if one.chart is None:
        yield shown_problems(one.problems, more=one.more)
        count = len(one.problems) + one.more
        yield f"{styled('CANNOT BE USED', 'strong')}  {one.file}: {_counted(count, 'problem')}"
        return
    name = f"{one.chart.full_name} ({one.chart.id})"
    if one.missing:
        yield "not given in this chart:"
        rows = tuple((fact.fact, fact.then, str(fact.address)) for fact in one.missing)
        yield from table_rows(Table(("fact", "so it cannot be told", "would stand at"), rows))
        yield ""
    lacks = _counted(len(one.missing), "fact") + " not given" if one.missing else "nothing missing"
    yield f"{styled('CAN BE USED', 'good')}  {one.file}: {name}, {lacks}"
    if one.hint:
        yield one.hint


def _counted(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


@command.command("copy", epilog="Exit code 2 when the chart cannot be copied, otherwise 0.")
@click.argument("chart", metavar=CHART)
@click.argument("file", type=A_FILE)
@AS_JSON
def copy_chart(chart: str, file: str, *, as_json: bool) -> int:
    """Copy a chart into a file of your own, to work on it there; its id becomes that of the file.

    A rig finds it in the folder `charts` beside it: charts/my-delay.chart.toml is the chart
    my-delay. All else in the copy, comments too, is as it was. A file that is there stays.
    """
    sheet = open_chart_sheet(chart)
    new = id_of_file(file)
    write_chart(file, copy_of(sheet, new))
    if as_json:
        give_json(copy_json(file, new, source=sheet.file))
    else:
        say(f'{file} is the chart "{new}" now, copied from {sheet.file}')
    return EXIT_CLEAN


@command.command("embed", epilog="Exit code 2 when the rig cannot be used, otherwise 0.")
@click.argument("rig", type=A_FILE)
@click.option("--replace", is_flag=True, help="Also overwrite charts beside the rig that differ.")
@AS_JSON
def embed_charts(rig: str, *, replace: bool, as_json: bool) -> int:
    """Copy the charts that a rig uses into `charts` beside it, so that it travels whole.

    A chart that lies there already stays as it is, even if yours or the sample's is another.
    """
    refuse_book(rig)
    charts = tuple(embedding(open_file(rig), replace=replace))
    lay_beside(
        rig, {one.chart: one.content for one in charts if one.content is not None}, replace=replace
    )
    if as_json:
        give_json(embed_json(rig, charts))
    else:
        say_all(table_rows(Table(("chart", "what was done"), _laid(charts))))
        if any(one.laid is Laid.DIFFERS for one in charts):
            say("charts that differ were left alone; --replace overwrites them")
    return EXIT_CLEAN


_DONE = {
    Laid.COPIED: "copied from {}",
    Laid.THERE: "is there already: {}",
    Laid.DIFFERS: "is there already, and differs from {}",
    Laid.REPLACED: "replaced by {}",
}


def _laid(charts: tuple[Embedded, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((one.chart, _DONE[one.laid].format(one.found)) for one in charts)
