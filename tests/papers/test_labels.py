"""Labels for both ends of every cable."""

from thruline.papers.labels import Label, Labels, labels_html, qr_svg

ONE = Label(
    number="M1", kind="MIDI", here="Delay <IN>", there="Feet OUT", plug="din5 angled left",
    length=300, code="M1",
)  # fmt: skip


def test_a_label_says_both_ends_and_needs_nothing_else():
    page = labels_html(Labels(rig="A & B", labels=(ONE,)))
    assert "Delay &lt;IN&gt;" in page
    assert "other end: Feet OUT" in page
    assert "din5 angled left · 300 mm" in page
    assert "A &amp; B" in page
    assert "http" not in page
    assert "<svg" not in page


def test_codes_where_they_are_wished():
    page = labels_html(Labels(rig="A", labels=(ONE, ONE)), codes=True)
    assert page.count("<svg") == 2
    assert qr_svg("M1") in page
    assert qr_svg("M1") == qr_svg("M1") != qr_svg("M2")
