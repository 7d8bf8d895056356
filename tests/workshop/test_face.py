"""What the workshop asks of the world."""

from tests.opening import TextShelf
from thruline.outside.shelves import sample_shelf
from thruline.workshop.face import Sheet, Shelf


def test_shelves_of_any_kind_can_stand_in() -> None:
    shelves: list[Shelf] = [TextShelf(()), sample_shelf()]
    assert all(shelf.says for shelf in shelves)
    assert shelves[0].find("bramley-delay") is None
    found = shelves[1].find("bramley-delay")
    assert isinstance(found, Sheet)
    assert b"bramley-delay" in found.content
