"""The implementation chart in three parts: version 2 of the standard sheet.

Source: RP-028 of the MIDI Association: basic information, timing, extensions; then every defined
control number; answers are Yes and No. What a chart does not say is a question mark.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeAlias

from thruline.midi.control_names import CONTROL_NAMES
from thruline.papers.chart_traffic import (
    NO,
    UNTOLD,
    Told,
    Topic,
    modes,
    number_ranges,
    recognizes,
    sent_on,
    transmits,
)
from thruline.papers.chart_words import (
    bank_numbers,
    bank_reading,
    numbers_of,
    programs_in_words,
    values_in_words,
    wire_numbers,
)
from thruline.papers.paper import Section, Table
from thruline.rig.chart import Chart
from thruline.rig.programs import BankBytes
from thruline.rig.values import Control, ControlMessage

HEAD = ("", "Transmit", "Recognize", "Remarks")
CONTROLS_HEAD = ("Control #", "Function", "Transmitted", "Recognized", "Remarks")
LEGEND = ("?: the chart does not say",)

_Row: TypeAlias = tuple[str, str, str, str]

_VOICE = (
    "Note-on velocity", "Note-off velocity", "Channel aftertouch", "Poly aftertouch", "Pitch bend",
)  # fmt: skip
_UNIVERSAL = (
    "Sample dump", "File dump", "MIDI tuning", "Master volume", "Master balance",
    "Notation information", "Turn GM1 on", "Turn GM2 on", "Turn GM off", "DLS-1", "File reference",
    "Controller destination", "Key-based instrument control", "Master fine and coarse tune",
)  # fmt: skip
_REGISTERED: Mapping[int, str] = {
    0: "RPN 00, pitch bend range",
    1: "RPN 01, channel fine tune",
    2: "RPN 02, channel coarse tune",
    3: "RPN 03, tuning program",
    4: "RPN 04, tuning bank",
    5: "RPN 05, modulation depth range",
}
_TIMING: Mapping[str, Topic] = {
    "MIDI clock": Topic.CLOCK,
    "Song position pointer": Topic.OTHER,
    "Song select": Topic.OTHER,
    "Start": Topic.START_STOP,
    "Continue": Topic.START_STOP,
    "Stop": Topic.START_STOP,
    "MIDI time code": Topic.OTHER,
    "MIDI machine control": Topic.OTHER,
    "MIDI show control": Topic.OTHER,
}
_EXTENSIONS = (
    "General MIDI", "GM default at power-up", "DLS", "Standard MIDI files", "XMF files", "SP-MIDI",
)  # fmt: skip


def version_2(chart: Chart) -> tuple[Section, ...]:
    """The three parts of the sheet, and the control numbers."""
    other = (_asked(chart, name, Topic.OTHER) for name in _EXTENSIONS)
    parts = {
        "1. Basic information": (*_addressing(chart), *_voices(chart), *_exclusive(chart)),
        "2. Timing and synchronization": (
            _asked(chart, name, topic) for name, topic in _TIMING.items()
        ),
        "3. Extensions compatibility": other,
    }
    sections = [
        Section(title=title, table=Table(HEAD, tuple(rows))) for title, rows in parts.items()
    ]
    table = Table(CONTROLS_HEAD, tuple(_controls(chart)))
    return (*sections, Section(title="Control numbers", table=table, notes=LEGEND))


def yes_or_no(told: Told) -> str:
    """The answer as the sheet has it."""
    return "?" if told.known is None else "Yes" if told.known else "No"


def _asked(chart: Chart, name: str, topic: Topic) -> _Row:
    sent, heard = transmits(chart, topic), recognizes(chart, topic)
    return name, yes_or_no(sent), yes_or_no(heard), _joined((heard.remark, sent.remark))


def _joined(remarks: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(filter(None, remarks)))


def _addressing(chart: Chart) -> Iterator[_Row]:
    rule = chart.channel
    channels = "No" if rule is None else number_ranges(rule.allowed)
    factory = f"factory {rule.factory}" if rule and rule.factory else ""
    sent = "1-16" if chart.abilities is not None else yes_or_no(sent_on(chart))
    yield "MIDI channels", sent, channels, _joined((factory, rule.where if rule else ""))
    yield _asked(chart, "Note numbers", Topic.NOTE)
    yield from _programs(chart)
    _, possible = modes(chart)
    for mode, name in {1: "omni on, poly", 2: "omni on, mono", 3: "omni off, poly"}.items():
        heard = UNTOLD if possible and mode == 2 else Told(known=mode in possible)
        yield f"Mode {mode} ({name})", "", yes_or_no(heard), ""
    yield "Mode 4 (omni off, mono)", "", "?" if possible else "No", ""
    several = rule is not None and rule.occupies > 1
    remark = f"{rule.occupies} channels in a row" if rule is not None and several else ""
    yield "Multi mode", "", yes_or_no(Told(known=several)), remark


def _programs(chart: Chart) -> Iterator[_Row]:
    sent, heard = transmits(chart, Topic.PROGRAM), recognizes(chart, Topic.PROGRAM)
    numbering, span = chart.programs, yes_or_no(heard)
    says, reading, banks = "", "", heard if heard.known is False else UNTOLD
    if numbering is not None:
        span, says = wire_numbers(numbering), programs_in_words(numbering)
        # RP-028: a unit that reads only one of the two bytes answers No, with a remark.
        banks = Told(known=numbering.bank_bytes is BankBytes.BOTH)
        reading = bank_reading(numbering.bank_bytes)
    yield "Program change", yes_or_no(sent), span, _joined((says, heard.remark, sent.remark))
    can = NO if chart.abilities is not None and "bank" not in chart.abilities.sends else sent
    yield "Bank select", yes_or_no(can), yes_or_no(banks), reading


def _voices(chart: Chart) -> Iterator[_Row]:
    notes = recognizes(chart, Topic.NOTE)
    for name in _VOICE:
        _, sent, heard, remark = _asked(chart, name, Topic.OTHER)
        if "velocity" in name and notes.known is False:
            heard = "No"
        yield name, sent, heard, remark
    yield _asked(chart, "Active sensing", Topic.ACTIVE_SENSING)
    yield _asked(chart, "System reset", Topic.OTHER)
    yield _asked(chart, "Tune request", Topic.OTHER)


def _exclusive(chart: Chart) -> Iterator[_Row]:
    known = Told(known=True) if chart.identity else UNTOLD
    reply = f"answers {_hex(chart.identity)}" if chart.identity else ""
    yield "Device inquiry", yes_or_no(known), yes_or_no(known), reply
    for name in _UNIVERSAL:
        yield _asked(chart, name, Topic.OTHER)
    heard = recognizes(chart, Topic.SYSTEM_EXCLUSIVE)
    yield "Manufacturer's own exclusive", "?", yes_or_no(heard), heard.remark
    own = {one.number for one in chart.controls.values() if one.message is ControlMessage.RPN}
    private = [one for one in chart.controls.values() if one.message is ControlMessage.NRPN]
    sent, takes = transmits(chart, Topic.CONTROL), recognizes(chart, Topic.CONTROL)
    out = yes_or_no(sent) if private else "No"
    yield "NRPNs", out, yes_or_no(takes if private else NO), _joined(map(_numbered, private))
    for number, name in _REGISTERED.items():
        out = yes_or_no(sent) if number in own else "No"
        yield name, out, yes_or_no(takes if number in own else NO), ""


def _hex(raw: Iterable[int]) -> str:
    return bytes(raw).hex(" ").upper()


def _numbered(control: Control) -> str:
    return f"{control.number >> 7} {control.number & 0x7F} {control.name}"


def _controls(chart: Chart) -> Iterator[tuple[str, str, str, str, str]]:
    """Every defined number, and the private ones that the unit uses."""
    sent, heard = transmits(chart, Topic.CONTROL), recognizes(chart, Topic.CONTROL)
    uses = _uses(chart)
    from_memory = chart.abilities is not None and sent.known
    for number in sorted(CONTROL_NAMES.keys() | uses.keys()):
        name, says = CONTROL_NAMES.get(number, ""), "; ".join(uses.get(number, ()))
        private = not name and number in uses
        out = sent if number in uses or from_memory else _if_unlisted(number, sent)
        taken = heard if number in uses else _if_unlisted(number, heard)
        remark = f"private use: {says}" if private else says
        function = name or "; ".join(one.split(":")[0] for one in uses[number])
        yield str(number), function, yes_or_no(out), yes_or_no(taken), remark


def _if_unlisted(number: int, told: Told) -> Told:
    """A chart lists the numbers that do something; of channel mode messages it says nothing."""
    return UNTOLD if number >= 120 and told.known is not False else NO


def _uses(chart: Chart) -> Mapping[int, list[str]]:
    """What each control number does in this unit."""
    uses: dict[int, list[str]] = {}
    for number in bank_numbers(chart.programs) if chart.programs else ():
        uses.setdefault(number, []).append("bank of the program change that follows")
    for control in chart.controls.values():
        is_parameter = control.message in (ControlMessage.RPN, ControlMessage.NRPN)
        for place, number in enumerate(numbers_of(control)):
            says = f"{control.name}: {values_in_words(control)}"
            if is_parameter:
                says = "sets the parameters above"
            elif place > 0:
                says = f"{control.name}: fine half of {control.number}"
            told = uses.setdefault(number, [])
            told.extend([says] if says not in told else [])
    return uses
