"""The name that was probably meant."""

import difflib
from collections.abc import Iterable, Mapping
from dataclasses import replace

from thruline.base.address import Address
from thruline.base.edit import Plain
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


def key_gap(
    lack: Lack,
    address: Address,
    found: str,
    *,
    says: str,
    known: Iterable[str],
    beside: Mapping[str, Plain],
) -> Unresolved:
    """As `gap`, where the name is a key of the table `beside`, so that it can be renamed."""
    one = gap(lack, address, found, says=says, known=known)
    return replace(one, held=None if one.nearest in beside else beside[found])
