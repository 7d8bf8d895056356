"""Letting a telephone in: a link that works once, as words and as a code to photograph."""

import socket

from thruline.app.frame import Json
from thruline.base.errors import CannotUse
from thruline.workbench.guard import LINK_SECONDS, Doors

_ANYWHERE = ("192.0.2.1", 9)
"""An address kept for examples: the way to it is asked for, and nothing is sent."""


def link_page(address: str, doors: Doors) -> Json:
    """A new link. Raises CannotUse when the server can only be reached from this machine."""
    if not address:
        raise CannotUse(
            "this workbench can be reached from this machine only; start it with "
            "`thruline workbench --share` to let a telephone in"
        )
    link = f"{address}/enter/{doors.new_link()}"
    return {"link": link, "minutes": LINK_SECONDS // 60, "code": svg_code(link)}


def svg_code(text: str) -> str:
    """A text as a code that telephones read, as SVG."""
    import segno  # noqa: PLC0415 - only when a device is let in

    code = segno.make_qr(text, error="m")
    return str(code.svg_inline(scale=6, border=3, dark="#000", light="#fff"))


def own_address() -> str:
    """The address of this machine on its network; Raises CannotUse when it is on none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(_ANYWHERE)
            name: str = asked.getsockname()[0]
        except OSError:
            raise CannotUse("this machine is on no network, so no telephone can reach it") from None
    return name
