import re
from html.parser import HTMLParser

import pytest

from tests.papers.pictures import picture
from tests.papers.test_proof_words import finding, proof
from thruline.base.edit import set_to
from thruline.papers.colours import THEMED
from thruline.papers.paper import Figure, Section, Table
from thruline.papers.report import Card, Report, StepShown, report_html
from thruline.papers.timing_svg import timing_svg
from thruline.proof.finding import Mend, Severity

EMPTY = {"meta", "link", "br", "hr", "img", "input"}


class Outline(HTMLParser):
    """Tags in their order, ids, what is linked to; complains about tags that do not match."""

    def __init__(self, page):
        super().__init__()
        self.open, self.tags, self.ids, self.links, self.text = [], [], [], [], []
        self.feed(page)
        assert not self.open

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        told = dict(attrs)
        self.ids += [told["id"]] if "id" in told else []
        self.links += [told["href"]] if "href" in told else []
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text.append(data)


def report(*severities, **more):
    found = more.pop("proof", None) or proof(*severities)
    cards = tuple(
        Card(
            finding=one,
            title="It comes too late",
            why="Nobody hears it.",
            spot="mine.rig.toml:3:1",
            mends=((f"{place}=1", Mend("Set it right", (set_to(one.where[0], 1),), is_safe=True)),),
        )
        for place, one in enumerate(found.findings, 1)
    )
    given = {"rig": "Mine", "about": "", "file": "mine.rig.toml", "figures": ()}
    return Report(**{**given, "proof": found, "cards": cards, **more})


def figure(name="one"):
    table = Table(("no", "bytes"), (("1", "C0 00"),))
    section = Section(title="Messages", says=("As sent.",), table=table, notes=("In ms.",))
    svg = timing_svg(picture(2), palette=THEMED, name=name)
    return Figure(title='Preset 1 "Cue"', says="all right", svg=svg, sections=(section,))


def test_the_heading_is_the_answer():
    page = Outline(report_html(report(Severity.FAULT, Severity.RISK)))
    assert "1 fault, 1 risk" in page.text
    assert "24 presets, 552 changes proved." in "".join(page.text)
    assert page.tags.count("h1") == 1


def test_nothing_found_is_green():
    page = report_html(report())
    assert 'class="verdict good">No faults, no risks<' in page
    summary = page.partition('<p class="sum">')[2].partition("</p>")[0]
    assert summary.startswith("Proved: ")
    assert summary.count("roved") == 1


@pytest.mark.parametrize("severity", Severity)
def test_a_finding_is_a_card_with_all_that_it_rests_on(severity):
    page = report_html(report(severity))
    assert f'class="card {severity.value}"' in page
    for says in (
        "It is late",
        "mine.rig.toml:3:1",
        "Nobody hears it.",
        "--do 1=1",
        "Set it right",
    ):
        assert says in page


def test_what_cannot_be_told_and_what_is_accepted_have_their_place():
    page = "".join(Outline(report_html(report(proof=proof(accepted=1, untold=1)))).text)
    assert "missing: settle" in page
    assert "Because: because" in page


def test_a_chart_stands_in_the_page_with_its_tables():
    page = report_html(report(figures=(figure(),)))
    outline = Outline(page)
    assert outline.tags.count("svg") == 1
    assert '<td class="bytes">C0 00</td>' in page


def test_the_way_from_as_found_step_by_step():
    step = StepShown(
        finding="It is late",
        says="set it right",
        is_safe=True,
        diff=(" a = 1", "-b = 2", "+b = 3"),
        brings=("Something else",),
        after="no faults, no risks",
    )
    page = report_html(report(found="1 fault, no risks", steps=(step,)))
    for says in ("as found: 1 fault, no risks", "Set it right", "<b>+b = 3</b>", "Something else"):
        assert says in page


def test_every_link_leads_somewhere_and_every_id_is_one_of_its_kind():
    given = report(Severity.FAULT, figures=(figure("one"), figure("two")), found="", proof=None)
    page = Outline(report_html(given))
    assert len(page.ids) == len(set(page.ids))
    assert {link.removeprefix("#") for link in page.links} <= set(page.ids)


def test_it_needs_nothing_from_outside():
    page = report_html(report(Severity.FAULT, figures=(figure(),)))
    assert not re.search(r"<script|<link|<img|@import|url\(|src=", page)
    assert set(re.findall(r"https?://[^\"]+", page)) == {"http://www.w3.org/2000/svg"}


def test_words_of_a_document_are_never_markup():
    odd = "<script>alert(1)</script>"
    page = report_html(report(rig=odd, about=odd, file=odd))
    assert odd not in page
    assert "&lt;script&gt;" in page


def test_light_dark_and_print_set_the_same_variables():
    page = report_html(report())
    blocks = re.findall(r":root \{ (.*?) \}", page)
    names = [set(re.findall(r"(--[a-z0-9-]+):", block)) for block in blocks]
    assert len(names) == 3
    assert names[0] == names[1] == names[2]
    assert "prefers-color-scheme: dark" in page


def test_evidence_is_a_table_with_heads():
    page = report_html(report(Severity.FAULT))
    (label, value) = finding(Severity.FAULT).evidence[0].rows[0]
    assert f'<th scope="row">{label}</th><td>{value}</td>' in page
