"""A text and the shape it has, with the spot of every value; or its problems, all at once."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError

from thruline.base.address import Address
from thruline.base.errors import CannotUse
from thruline.base.spot import Spot
from thruline.document.misfits import misfit_problems
from thruline.document.naming import Trail, trail_of
from thruline.document.pieces import Pieces, read_pieces
from thruline.document.places import Kind, Places, places
from thruline.document.plain import at_trail
from thruline.document.problems import BadDocument
from thruline.document.read import read, refuse_unseen, text_of

ShapeT = TypeVar("ShapeT", bound=BaseModel)


@dataclass(frozen=True)  # without slots: `places` is computed when it is first asked for, and kept
class Parsed(Generic[ShapeT]):
    """A document that can be used.

    `data` is what `tomllib` reads, `shape` the same as typed by the model.
    """

    file: str
    text: str
    data: dict[str, Any]
    shape: ShapeT
    pieces: Pieces | None = field(default=None, compare=False, repr=False)
    """The same piece by piece, where it could be read so."""

    @cached_property
    def places(self) -> Places:
        """Where everything stands. Takes about twice the time that parsing took."""
        return places(self.text)

    def spot_of(self, address: Address) -> Spot:
        """Where the thing at an address stands; the nearest thing around it if it is not there."""
        trail, place = self.places.nearest(_nearest_trail(self.data, address))
        if place is None:
            return Spot(self.file, 1, 1)
        holds_others = isinstance(at_trail(self.data, trail), dict | list)
        if holds_others and place.kind in (Kind.PAIR, Kind.INNER):
            return self.places.spot(self.file, place.key, place.key_end)
        return self.places.spot(self.file, place.start, place.end)


def parse(
    source: str | bytes, model: type[ShapeT], *, file: str, before: Parsed[ShapeT] | None = None
) -> Parsed[ShapeT]:
    """Read a document and hold it against a model.

    `file` is the name by which people know the text; nothing is read from it. What stands in
    `before` too is taken over from there: the same entries are the same objects in data and shape.
    Raises BadDocument with all that is wrong.
    """
    text = text_of(source, file)
    pieces = read_pieces(text, before.pieces if before else None)
    if pieces is None:
        _, data = read(text, file=file)
        refuse_unseen(text, data, file=file)
    else:
        data = pieces.data
    try:
        shape = model.model_validate(_with_known(data, before) if before else data)
    except ValidationError as error:
        problems, more = misfit_problems(error, places(text), data, model=model, file=file)
        raise BadDocument(problems, more=more) from None
    return Parsed(file, text, data, shape, pieces)


def _with_known(data: Mapping[str, Any], before: Parsed[ShapeT]) -> dict[str, Any]:
    """The data with entries in their shape already where the document before had them."""
    known: dict[int, Any] = {}
    for key, entries in before.data.items():
        shaped = getattr(before.shape, key, None)
        if isinstance(entries, list) and isinstance(shaped, list | tuple):
            known.update(zip(map(id, entries), shaped, strict=False))
    return {
        key: [known.get(id(entry), entry) for entry in value] if isinstance(value, list) else value
        for key, value in data.items()
    }


def _nearest_trail(data: object, address: Address) -> Trail:
    """The trail of an address, or of the first thing around it that is there."""
    while address.steps:
        last = address.steps[-1]
        for reachable in (address, address.parent.child(last.key)):
            try:
                return trail_of(data, reachable)
            except CannotUse:
                continue
        address = address.parent
    return ()
