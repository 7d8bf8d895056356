"""What a page asks, read and bounded; and answers, also when something is refused."""

import json
from collections.abc import Mapping
from typing import Any, TypeAlias
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from thruline.base.errors import CannotUse, ThrulineError, WorldFailed

Asked: TypeAlias = Mapping[str, Any]
"""What a page asks for, beside the name of the deed."""

MOST_BYTES = 2 * 1024 * 1024
"""The largest request. A sheet of 128 presets by 16 units has about 60 kB."""
MOST = 2**53 - 1
"""The largest whole number that every reader of JSON understands alike."""
REFUSED, FAILED, CLASH, TOO_LARGE, NOTHING = 422, 503, 409, 413, 204


class TooLarge(CannotUse):
    """A request of more bytes than are taken."""


async def read_asked(request: Request) -> Mapping[str, Any]:
    """The JSON object of a request. Raises CannotUse when it is none, or far too large."""
    content = bytearray()
    async for piece in request.stream():
        content += piece
        if len(content) > MOST_BYTES:
            raise TooLarge(f"at most {MOST_BYTES // 1024 // 1024} MB are taken at once")
    try:
        asked = json.loads(content)
    except (ValueError, RecursionError):
        raise CannotUse("this is not JSON") from None
    if not isinstance(asked, dict):
        raise CannotUse("a JSON object is wanted")
    return asked


def wanted(asked: Mapping[str, Any], key: str, kind: type) -> Any:  # noqa: ANN401 - as `kind` says
    """A value of a request. Raises CannotUse when it is missing, of another kind, or too large."""
    value = asked.get(key)
    if type(value) is not kind:
        raise CannotUse(f'"{key}" is wanted, a value of the kind {kind.__name__}')
    if isinstance(value, int) and abs(value) > MOST:
        raise CannotUse(f'"{key}" is a number of at most {MOST}')
    return value


def attachment(name: str) -> dict[str, str]:
    """The header of an answer that is kept as a file of this name."""
    return {"content-disposition": f"attachment; filename*=UTF-8''{quote(name, safe='')}"}


def unheard() -> Response:
    """An answer to a browser that has stopped waiting: nobody reads it."""
    return Response(status_code=NOTHING)


def refusal(trouble: ThrulineError) -> JSONResponse:
    """Trouble, for the page to show."""
    from thruline.app.clash import Clashing  # noqa: PLC0415 - heavy, and seldom needed
    from thruline.app.frame import problem_json  # noqa: PLC0415 - as above
    from thruline.app.preset_grid import NotUnderstoodCells  # noqa: PLC0415 - as above
    from thruline.app.problem_words import problems_in_words  # noqa: PLC0415 - as above
    from thruline.document.problems import BadDocument  # noqa: PLC0415 - as above

    if isinstance(trouble, Clashing):
        clashes = [
            {"address": one.address, "seen": one.seen, "now": one.now, "wanted": one.wanted}
            for one in trouble.clashes
        ]
        return JSONResponse({"says": trouble.says, "clashes": clashes}, CLASH)
    if isinstance(trouble, NotUnderstoodCells):
        cells = [
            {"preset": typed.preset, "column": typed.column, "why": one.why, "example": one.example}
            for typed, one in trouble.cells
        ]
        return JSONResponse({"says": trouble.says, "cells": cells}, REFUSED)
    if isinstance(trouble, BadDocument):
        problems = [problem_json(one) for one in trouble.problems]
        return JSONResponse({"says": problems_in_words(trouble), "problems": problems}, REFUSED)
    status = FAILED if isinstance(trouble, WorldFailed) else REFUSED
    status = TOO_LARGE if isinstance(trouble, TooLarge) else status
    return JSONResponse({"says": trouble.says}, status)
