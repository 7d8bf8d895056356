"""`find`: look for the one thing that is wrong, question by question."""

import json
from collections.abc import Iterable, Iterator
from typing import TypedDict, Unpack

import click

from thruline.app.audited import experience_by_audit
from thruline.app.frame import Json, answer
from thruline.app.locate import (
    Field,
    Place,
    Search,
    Standing,
    begin,
    field_for,
    search_from_data,
    search_to_data,
    stand,
    step_for,
    with_symptoms,
)
from thruline.app.locate_answer import card_json, standing_json
from thruline.app.prove import prove_rig
from thruline.app.searched import experience_for, keep_search
from thruline.audit.digits import is_number
from thruline.base.errors import EXIT_CLEAN, EXIT_FAULTS, CannotUse, ThrulineError
from thruline.binding import check_report
from thruline.cli.find_report import write_report
from thruline.cli.find_text import check_rows, standing_rows, understood_rows
from thruline.cli.given import A_FILE, OneOf, refuse_idle
from thruline.cli.paper_text import paper_rows
from thruline.cli.show import ask_rows, complain, give_row, say, say_all
from thruline.desk_wiring import (
    check_search,
    kept_searches,
    read_answer_file,
    read_search,
    rig_in_store,
    write_search,
)
from thruline.find.card import card_for
from thruline.find.checks import Check
from thruline.find.experience import NO_EXPERIENCE, Experience
from thruline.find.search import Verdict
from thruline.find.story import record
from thruline.papers.as_html import paper_html
from thruline.papers.fault_card import fault_card
from thruline.proof.case import Case
from thruline.wiring import open_file, write_page

PLACES = [place.value for place in Place]
CLEAN = (Verdict.WORKS, Verdict.NOTHING_FOUND)


class Wish(TypedDict):
    """What is asked for besides the rig."""

    place: str
    symptoms: tuple[str, ...]
    by_proof: bool
    by_audit: str | None
    resume: str | None
    keep: str | None
    record: bool
    report: str | None
    card: bool
    html: str | None
    as_json: bool


@click.command("find", epilog="Exit code 0 when it works or no fault was found, else 1.")
@click.argument("rig", type=A_FILE)
@click.option(
    "--place",
    type=OneOf("place", PLACES),
    default="bench",
    help="Where the board is; bench if not.",
)
@click.option(
    "--symptom", "symptoms", multiple=True, metavar="WORDS",
    help='What was seen, such as "delay does nothing"; may be given again.',
)  # fmt: skip
@click.option("--from-proof", "by_proof", is_flag=True, help="Suspect first what the proof found.")
@click.option(
    "--from-audit",
    "by_audit",
    type=A_FILE,
    metavar="FILE",
    help="Suspect first what an audit found; the file holds what `audit --json` wrote.",
)
@click.option("--resume", type=A_FILE, metavar="FILE", help="Go on with a search kept there.")
@click.option("--keep", type=A_FILE, metavar="FILE", help="Keep the search there (.json).")
@click.option(
    "--record/--no-record",
    default=True,
    help="Put the search into the workshop's record, and let the record move the odds; on if not.",
)
@click.option(
    "--report", type=A_FILE, metavar="FILE",
    help="At the end, a page for a colleague: .html, .pdf, .md, or .txt as a new file.",
)  # fmt: skip
@click.option("--card", is_flag=True, help="The first checks as a small tree, for the book.")
@click.option("--html", type=A_FILE, metavar="FILE", help="That card as a page.")
@click.option(
    "--json", "as_json", is_flag=True, help="A JSON object a row: answers in, states out."
)
def command(rig: str, **wish: Unpack[Wish]) -> int:
    """Look for the one thing that is wrong: a question, an answer, and what follows from it.

    Answers are read from standard input, one a row: a number, the first letters of an answer, or
    one of the letters below each question.
    """
    if wish["card"] or wish["html"] is not None:
        because = "is for a search; leave out --card and --html, which hold the first checks"
        refuse_idle("symptoms", "resume", "keep", "report", because=because)
    opened = open_file(rig)
    case, proof = prove_rig(opened) if wish["by_proof"] else (Case(opened.rig), None)
    search = begin(Place(wish["place"]))
    if wish["resume"] is not None:
        search = search_from_data(read_search(wish["resume"]))
    before = _remembered(rig) if wish["record"] else NO_EXPERIENCE
    if wish["by_audit"] is not None:
        before = before.with_(experience_by_audit(case, read_answer_file(wish["by_audit"])))
    field = field_for(case, place=search.place, proof=proof, experience=before)
    if wish["card"] or wish["html"] is not None:
        return _card(field, wish)
    search = with_symptoms(field, search, wish["symptoms"])
    if wish["keep"] is not None:
        check_search(wish["keep"])
    if wish["report"] is not None:
        check_report(wish["report"])
    talk = _lines if wish["as_json"] else _talk
    standing = talk(field, search, wish["keep"])
    if wish["record"]:
        _remember(rig, standing)
    if wish["report"] is not None:
        write_report(wish["report"], standing)
        complain(f"the page for a colleague is written to {wish['report']}")
    return EXIT_CLEAN if standing.verdict in CLEAN else EXIT_FAULTS


def _remembered(rig: str) -> Experience:
    """What the workshop's record says; nothing, with a word about it, where it cannot be read."""
    try:
        return experience_for(kept_searches(), rig_in_store(rig))
    except ThrulineError as trouble:
        complain(f"{trouble.says}; the search goes on without the record")
        return NO_EXPERIENCE


def _remember(rig: str, standing: Standing) -> None:
    """Put the search into the workshop's record."""
    try:
        keep_search(kept_searches(), rig_in_store(rig), standing)
    except ThrulineError as trouble:
        complain(f"{trouble.says}; the search is not in the record")


def _card(field: Field, wish: Wish) -> int:
    """The card for people without the tool."""
    entries = card_for(field)
    paper = fault_card(field.meant.rig.name, entries)
    if wish["html"] is not None:
        write_page(wish["html"], paper_html(paper))
    written = [] if wish["html"] is None else [wish["html"]]
    if wish["as_json"]:
        give_row(answer("find", card=card_json(entries), written=written))
    else:
        say_all(paper_rows(paper) if wish["card"] else ())
        say_all(f"written to {file}" for file in written)
    return EXIT_CLEAN


def _talk(field: Field, search: Search, keep: str | None) -> Standing:
    """Question and answer on a terminal."""
    standing = stand(field, search)
    say_all(understood_rows(standing))
    say_all(standing_rows(standing, first=True))
    again: Check | None = None
    for text in ask_rows("> "):
        words = text.strip().lower()
        if words in ("q", "quit", "stop"):
            break
        if not words:
            complain("type an answer: its number or its first letters")
            continue
        if words in ("w", "why"):
            say_all(record(field, standing.search))
            continue
        if words in ("r", "repeat") and standing.doubtful is not None:
            again = field.check(standing.search.steps[standing.doubtful].on)
            say_all(check_rows(field, again))
            continue
        try:
            search = _after(standing, words, again)
        except CannotUse as trouble:
            complain(trouble.says)
            continue
        again, standing = None, stand(field, search)
        _keep(keep, search)
        say()
        if words.startswith("s "):
            say_all(understood_rows(standing))
        say_all(standing_rows(standing))
        if standing.verdict.is_end:
            break
    return standing


def _after(standing: Standing, words: str, again: Check | None) -> Search:
    """The search after a person’s row; `again` is the check that was asked once more."""
    first, _, rest = words.partition(" ")
    if first in ("b", "back"):
        return _taken_back(standing.search, rest)
    if first == "s" and rest:
        return with_symptoms(standing.belief.field, standing.search, [rest])
    return standing.search.after(
        step_for(standing, "mended" if words == "m" else words, check=again)
    )


def _taken_back(search: Search, number: str) -> Search:
    """The search without its last answer, or without the one of this number."""
    count = len(search.steps)
    if not count:
        raise CannotUse("there is no answer to take back")
    if not number:
        return search.taken_back()
    if not is_number(number) or not 1 <= int(number) <= count:
        raise CannotUse(f"there is no answer {number} to take back; they are 1 to {count}")
    return search.without(int(number) - 1)


def _lines(field: Field, search: Search, keep: str | None) -> Standing:
    """Objects in and out, one a row, for other programs."""
    standing = stand(field, search)
    give_row(answer("find", **standing_json(standing)))
    for text in _filled(ask_rows()):
        try:
            search = _told(field, standing, text)
        except ThrulineError as trouble:
            give_row(answer("find", trouble=trouble.says))
            continue
        standing = stand(field, search)
        _keep(keep, search)
        give_row(answer("find", **standing_json(standing)))
    return standing


def _filled(rows: Iterable[str]) -> Iterator[str]:
    return (row for row in rows if row.strip())


def _told(field: Field, standing: Standing, text: str) -> Search:
    """The search after what another program said. Raises CannotUse when it makes no sense."""
    said = _object(text)
    if "back" in said:
        count = said["back"]
        if isinstance(count, bool) or not isinstance(count, int) or count < 1:
            raise CannotUse('"back" wants the number of steps to take back, such as {"back": 1}')
        return standing.search.taken_back(count)
    if "without" in said:
        place = said["without"]
        if not isinstance(place, int) or not 0 <= place < len(standing.search.steps):
            raise CannotUse('"without" wants the place of a step, counted from 0')
        return standing.search.without(place)
    if "symptom" in said:
        return with_symptoms(field, standing.search, [str(said["symptom"])])
    if "search" in said and isinstance(said["search"], dict):
        return search_from_data(said["search"])
    if "answer" not in said:
        raise CannotUse(
            'a row is one of {"answer": "..."} (with "check" when it is not the one asked), '
            '{"back": 1}, {"without": 0}, {"symptom": "..."} and {"search": {...}}'
        )
    check = field.check(str(said["check"])) if "check" in said else None
    return standing.search.after(step_for(standing, str(said["answer"]), check=check))


def _object(text: str) -> Json:
    try:
        said = json.loads(text)
    except (ValueError, RecursionError):
        raise CannotUse(f"this row is not JSON: {text.strip()[:60]}") from None
    if not isinstance(said, dict):
        raise CannotUse('a row is one JSON object, such as {"answer": "right"}')
    return said


def _keep(file: str | None, search: Search) -> None:
    if file is not None:
        write_search(file, json.dumps(search_to_data(search), indent=2) + "\n")
