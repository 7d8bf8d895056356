"""How long a book takes: of the demonstration rig, and again after one edit.

    .venv/bin/python -m benchmarks.bench_book

CPU time of this process, since a machine may be busy elsewhere.
"""

import time

from thruline.app.book import book_from, made_words
from thruline.app.book_parts import Material
from thruline.app.mend import after_edits, state_of
from thruline.base.address import at
from thruline.base.edit import set_to
from thruline.outside.pdf import book_pdf, page_count
from thruline.wiring import demo_texts, open_sample

DATE = "1 May 2026"


def main() -> None:
    """Make both, and say how long each took."""
    began = time.process_time()
    state = state_of(open_sample(demo_texts()[1], "pit.rig.toml"))
    first = Material(state, made_words(DATE))
    made = book_pdf(book_from(first, date=DATE), paper="a4")
    print(f"{page_count(made)} pages: {time.process_time() - began:.2f} s")
    began = time.process_time()
    edited = after_edits(state, [set_to(at("preset", "1").child("name"), "Other")])
    again = Material(edited, made_words(DATE), first)
    book_pdf(book_from(again, date=DATE), paper="a4")
    print(f"after one edit: {time.process_time() - began:.2f} s")


if __name__ == "__main__":
    main()
