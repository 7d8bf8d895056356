"""Program labels of a chart: every label one program, every program one label.

A label of two numbers written side by side (`11` + `2`) can only be taken apart again when the one
in front always has the same width, or something stands between them. Otherwise `112` could be bank
1, slot 12 as well as bank 11, slot 2, and the numbering is refused.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from thruline.base.address import Address, at
from thruline.document.chart_shape import ChartShape, Digits, ProgramsShape
from thruline.rig.chart_problem import ChartProblem
from thruline.rig.programs import WireProgram, place_of, wire_to_label
from thruline.rig.read_chart import read_numbering

_PROGRAMS = 128
_LETTERS = 26
_BANKS = {"none": 1, "msb": 128, "lsb": 128, "both": 16384}


def look_at_programs(document: ChartShape) -> Iterator[ChartProblem]:
    """Numberings that cannot be read back, or do not fit into bank select and program change."""
    one = document.programs
    address = at("programs")
    if one is None:
        return
    if document.channel is None:
        yield ChartProblem(
            address, "it has programs, but no channel to hear of them on", "add [channel]"
        )
    if document.receive.program is False:
        yield ChartProblem(
            address,
            "it has programs, but [receive] says that it takes no program changes",
            "take one of the two away",
        )
    yield from _form(one, address)
    yield from _digits(one, address)
    yield from _wire(one, address)
    yield from _labels(one, address)


def count_of(one: ProgramsShape) -> int:
    """How many labels the numbering makes."""
    if one.names is not None or one.slots is None:
        return len(one.names or ())
    return one.slots.count * (one.banks.count if one.banks else 1)


def _form(one: ProgramsShape, address: Address) -> Iterator[ChartProblem]:
    """Either names, or slots with or without banks."""
    if one.names is not None and (one.slots is not None or one.banks is not None):
        yield ChartProblem(
            address.child("names"),
            "labels are listed by name and also numbered",
            "keep `names`, or `slots` and `banks`",
        )
    elif not one.names and one.slots is None:
        yield ChartProblem(
            address,
            "it has no labels",
            "write `slots`, as in slots = { count = 128, first = 1 }, or `names`",
        )
    if one.separator and (
        any(letter.isalnum() for letter in one.separator) or one.separator != one.separator.strip()
    ):
        yield ChartProblem(
            address.child("separator"),
            f'the separator "{one.separator}" could be taken for a part of the label',
            'use a sign such as "-" or ":"',
        )


def _digits(one: ProgramsShape, address: Address) -> Iterator[ChartProblem]:
    """Letters run from A to Z, and two numbers side by side must come apart again."""
    for key, digit in (("banks", one.banks), ("slots", one.slots)):
        if digit is not None and isinstance(digit.first, str):
            left = _LETTERS - (ord(digit.first.upper()) - ord("A"))
            if digit.count > left:
                yield ChartProblem(
                    address.child(key),
                    f"{digit.count} letters from {digit.first} on go past Z",
                    f"{left} are left; write numbers if the display shows numbers",
                )
    if one.banks is None or one.slots is None or one.separator:
        return
    front = one.banks if one.order == "bank-slot" else one.slots
    back = one.slots if one.order == "bank-slot" else one.banks
    if _width(front) is None and _width(back) is None:
        yield ChartProblem(
            address,
            f'labels such as "{_last(front)}{_last(back)}" can be taken apart in two ways',
            "write the `separator`, or the `width` to which the display pads with noughts",
        )


def _width(digit: Digits) -> int | None:
    """How many characters it always has; None when that varies. A letter counts as its own kind."""
    if isinstance(digit.first, str):
        return 1
    shortest = max(digit.width, len(str(digit.first)))
    longest = max(digit.width, len(_last(digit)))
    return longest if shortest == longest else None


def _last(digit: Digits) -> str:
    if isinstance(digit.first, str):
        return digit.first
    return str(digit.first + digit.count - 1).zfill(digit.width)


def _wire(one: ProgramsShape, address: Address) -> Iterator[ChartProblem]:
    """Every label must get a program number of 0 to 127, in a bank that the unit reads."""
    count = count_of(one)
    in_a_bank = min(count, one.per_bank)
    if one.first_wire + in_a_bank > _PROGRAMS:
        yield ChartProblem(
            address.child("first-wire"),
            f"{in_a_bank} programs from {one.first_wire} on go past {_PROGRAMS - 1}",
            "correct `first-wire`, or write how many lie in one MIDI bank in `per-bank`",
        )
    most = _BANKS[one.bank_select]
    last = max(
        one.first_bank + max(0, count - 1) // one.per_bank,
        *(special.bank for special in one.special),
        0,
    )
    if last >= most:
        reads = f"bank-select = {one.bank_select}"
        yield ChartProblem(
            address.child("bank-select"),
            f"its programs reach MIDI bank {last}, and with {reads} it reads 0 to {most - 1}",
            "correct `bank-select`, the counts, or `per-bank`",
        )


def _labels(one: ProgramsShape, address: Address) -> Iterator[ChartProblem]:
    """Names and special labels: each once, and each with a program of its own."""
    names = [label.strip().lower() for label in one.names or ()]
    for label, times in Counter(names).items():
        if times > 1 or not label:
            yield ChartProblem(
                address.child("names"), f'"{label}" is a label {times} times', "tell them apart"
            )
    if any(label != label.strip() for label in one.names or ()):
        yield ChartProblem(
            address.child("names"), "a label begins or ends with a blank", "take the blank away"
        )
    yield from _special(one, address)


def _special(one: ProgramsShape, address: Address) -> Iterator[ChartProblem]:
    """Programs outside the numbering must stay outside it, by label and by number."""
    numbering = read_numbering(one)
    if numbering is None:
        return
    plain = replace(numbering, special=())
    called: set[str] = set()
    taken: dict[WireProgram, str] = {}
    for label, wire in numbering.special:
        spot = address.child("special", label)
        low = label.strip().lower()
        if low in called or low != label.lower() or place_of(plain, label) is not None:
            yield ChartProblem(
                spot, f'"{label}" could be another label too', "call it as the display does"
            )
        other = taken.get(wire) or wire_to_label(plain, wire)
        if other is not None:
            yield ChartProblem(
                spot,
                f'bank {wire.bank}, program {wire.program} is "{other}" already',
                "correct one of them",
            )
        called.add(low)
        taken[wire] = label
