from thruline.find.card import Branch, Entry
from thruline.papers.fault_card import fault_card


def test_a_card_is_a_paper_of_numbered_sections():
    entries = [
        Entry(
            number=1,
            asks="Look.",
            caution="Mind your hand.",
            branches=(Branch("lit", 2), Branch("dark", None, ("give it power", "mend it"))),
        )
    ]
    paper = fault_card("Pit", entries)
    assert paper.title == "Pit: when it fails"
    assert any("licensed practice" in one for one in paper.about)
    section = paper.sections[0]
    assert (section.title, section.says) == ("1. Look.", ("Mind your hand.",))
    assert section.table is not None
    assert section.table.rows == (("lit", "go to 2"), ("dark", "give it power; or mend it"))
