"""Papers as PDF: read back, looked at letter by letter, and opened again."""

import pypdfium2
import pytest
import zxingcpp
from PIL import Image, ImageFilter

from tests.monsters import WIDE, monster, worded
from tests.opening import open_text
from tests.pages import amiss, text_of
from thruline.app.book import book_of, paper_book
from thruline.app.mend import state_of
from thruline.base.errors import CannotUse
from thruline.outside.pdf import (
    BEGINS,
    book_pdf,
    enclosed_in,
    page_count,
    page_pictures,
    page_sizes,
    part_starts,
)
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.papers.book import Book, Part, part_of
from thruline.papers.book_data import PAPERS
from thruline.papers.labels import Label, Labels
from thruline.papers.paper import Paper, Section, table_of

BOOK = book_of(state_of(open_text(sample_text(ORCHARD_STREET))), date="1 May 2026")


@pytest.fixture(scope="module", params=PAPERS)
def printed(request):
    return book_pdf(BOOK, paper=request.param)


def test_the_demonstration_has_its_pages_and_nothing_is_cut_or_covered(printed):
    assert page_count(printed) >= 30
    assert amiss(printed) == []


def test_all_that_is_in_it_can_be_searched_for(printed):
    text = " ".join(text_of(printed).split())
    for wanted in ("Orchard Street Revival", "Bramley Delay", "page 20", "1 May 2026", "Total:"):
        assert wanted in text


def test_it_has_bookmarks_for_all_parts_and_sections(printed):
    with pypdfium2.PdfDocument(printed) as document:
        marks = [(one.level, one.get_title()) for one in document.get_toc()]
    for part in BOOK.parts:
        assert (0, part.title) in marks
    assert any(level == 1 for level, _ in marks)


def test_its_parts_begin_where_the_contents_say(printed):
    starts = part_starts(printed)
    assert [starts[page] for page in sorted(starts)][-len(BOOK.parts) :] == [
        part.title for part in BOOK.parts
    ]
    assert len(page_sizes(printed)) == page_count(printed)


def test_the_same_book_gives_the_same_bytes(printed):
    assert printed in [book_pdf(BOOK, paper=paper) for paper in PAPERS]


def test_what_is_inside_comes_out_as_it_went_in(printed):
    assert enclosed_in(printed, "a.pdf") == {one.name: one.content for one in BOOK.enclosed}


@pytest.mark.parametrize("paper", PAPERS)
def test_longest_names_are_never_cut_and_never_cover_anything(paper):
    state = state_of(open_text(monster(presets=20, songs=8)))
    made = book_pdf(book_of(state, date="1 May 2026"), paper=paper)
    assert amiss(made) == []
    text = "".join(text_of(made).split())
    assert WIDE in text
    for name in (worded("Feet"), worded("0 Delay"), worded("19"), worded("Song 5")):
        assert "".join(name.split()) in text


def test_letters_that_no_shipped_face_has_are_printed_all_the_same():
    paper = Paper(title="Näme ♯ 中 \U0001f3b8", sections=(Section(title="t", says=("x",)),))
    made = book_pdf(paper_book(part_of("one", paper), date=""), paper="a4")
    assert made.startswith(BEGINS)


def test_nothing_that_people_type_is_taken_for_orders_to_the_typesetter():
    odd = '#panic("x") *bold* _it_ $1$ @ref <a> `raw` \\ // /* "quoted" [x] {y}'
    paper = Paper(title=odd, sections=(Section(title=odd, says=(odd,)),))
    made = book_pdf(paper_book(part_of("one", paper), date=""), paper="letter")
    assert "".join(text_of(made).split()).count("".join(odd.split())) >= 3


def test_codes_on_printed_labels_are_read_by_a_scanner():
    labels = tuple(
        Label(number=f"M{n}", kind="MIDI", here="Delay MIDI IN", there=WIDE, plug="din5",
              length=300, code=f"M{n} delay.midi-in < feet.midi-out, Orchard")
        for n in range(9)
    )  # fmt: skip
    part = Part(name="labels", title="Labels", blocks=(Labels(rig="r", labels=labels, codes=True),))
    made = book_pdf(paper_book(part, date=""), paper="a4")
    (shown,) = page_pictures(made, [1], scale=300 / 72)  # a printer of 300 dots an inch
    sharp = _picture(shown).convert("L")
    pale = sharp.point(lambda tone: 60 + tone * 150 // 255)  # worn ink on grey paper
    for seen in (sharp, pale, sharp.filter(ImageFilter.GaussianBlur(2))):
        read = {one.text for one in zxingcpp.read_barcodes(seen)}
        assert read == {one.code for one in labels}
    assert amiss(made) == []


def _picture(png):
    from io import BytesIO  # noqa: PLC0415 - beside its only use

    return Image.open(BytesIO(png))


def test_pages_as_pictures():
    paper = Paper(title="T", sections=(Section(title="t", says=("x",)),))
    made = book_pdf(paper_book(part_of("one", paper), date=""), paper="letter")
    (shown,) = page_pictures(made, [1], scale=0.5)
    assert _picture(shown).size == (306, 396)
    with pytest.raises(CannotUse, match="no page 2"):
        page_pictures(made, [2], scale=1)


@pytest.mark.parametrize("content", [b"", b"%PDF-", b"%PDF-1.7\n" + bytes(range(256)) * 9])
def test_what_is_no_book_is_refused(content):
    with pytest.raises(CannotUse, match=r"odd\.pdf"):
        enclosed_in(content, "odd.pdf")


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_row_stands_alone_at_the_end_of_a_table(paper):
    ends = set()
    for count in range(56, 70):
        rows = [(str(number), f"row-{number}") for number in range(count)]
        section = Section(title="Rows", table=table_of(("no", "words"), rows))
        made = book_pdf(
            Book(title="T", about="", date="", version="1",
                 parts=(Part(name="rows", title="Rows", blocks=(section,)),)),
            paper=paper,
        )  # fmt: skip
        with pypdfium2.PdfDocument(made) as document:
            text = document[len(document) - 1].get_textpage().get_text_range()
            ends.add((len(document), text.count("row-")))
    assert max(ends)[0] > min(ends)[0]  # some of them go over a page
    assert min(rows for _, rows in ends) == 2
