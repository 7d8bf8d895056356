"""An edit: what is to change in a document, and where. The document stage applies it to a text."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from thruline.base.address import Address

Plain: TypeAlias = "str | int | float | bool | list[Plain] | Mapping[str, Plain]"
"""What a TOML value can be here."""


class EditKind(StrEnum):
    """What an edit does at its address."""

    SET = "set"
    """Give the key at the address this value; add the key if it is not there."""
    ADD = "add"
    """Append one entry to the list of tables at the address (`cable`, `preset`, ...)."""
    REMOVE = "remove"
    """Take away the key or the list entry at the address."""


@dataclass(frozen=True, slots=True)
class Edit:
    """One change: what to do, where, and with which value (None when removing)."""

    kind: EditKind
    address: Address
    value: "Plain | None" = None


def set_to(address: Address, value: Plain) -> Edit:
    """An edit that gives the key at `address` the value."""
    return Edit(EditKind.SET, address, value)


def add_to(address: Address, entry: Mapping[str, Plain]) -> Edit:
    """An edit that appends a table to the list at `address`."""
    return Edit(EditKind.ADD, address, entry)


def remove(address: Address) -> Edit:
    """An edit that takes away what stands at `address`."""
    return Edit(EditKind.REMOVE, address)
