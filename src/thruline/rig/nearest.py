"""The name that was probably meant."""

import difflib
from collections.abc import Iterable

from thruline.base.address import Address
from thruline.rig.whole import Lack, Unresolved


def nearest(found: str, known: Iterable[str]) -> str | None:
    """The known name most like the one found, if any is like it at all."""
    alike = difflib.get_close_matches(found, list(known), n=1, cutoff=0.5)
    return alike[0] if alike else None


def gap(
    lack: Lack, address: Address, found: str, *, says: str, known: Iterable[str], writes: str = ""
) -> Unresolved:
    """A note of something that is not there, with the nearest thing that is.

    Where a value of the document names the thing, `writes` is how the value is written with `{}`
    for the name.
    """
    meant = nearest(found, known)
    hint = f'; did you mean "{meant}"?' if meant else ""
    return Unresolved(
        lack=lack,
        address=address,
        found=found,
        says=says + hint,
        nearest=meant,
        instead=writes.replace("{}", meant) if meant and writes else None,
    )
