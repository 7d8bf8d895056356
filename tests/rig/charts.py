"""Chart documents for tests of what is checked in them: small, right, and spoilt in one place."""

from typing import Any

from tests.rigs import Document, make_chart, make_controller, midi_in, midi_out, socket
from thruline.document.chart_shape import ChartShape
from thruline.rig.chart_check import check_chart

JACK = "ts-6.35"


def full_chart(**more: Any) -> Document:
    """A delay with something of everything, and nothing wrong with it."""
    sockets = [
        midi_in(),
        midi_out("thru"),
        midi_out("out"),
        socket("power-in", "power-in", "barrel-2.1"),
        socket("input", "audio-in", JACK),
        socket("output", "audio-out", JACK),
    ]
    made: Document = {
        "output": [
            {"socket": "thru", "ways": ["thru-wire"], "from": ["midi-in"]},
            {"socket": "out", "ways": ["merge", "own"]},
        ],
        "setting": [
            {
                "id": "out", "name": "OUT", "values": ["all", "mine"], "factory": "mine",
                "where": "MENU > 1", "governs": "output", "socket": "out",
                "means": {"all": "merge", "mine": "own"},
            },
            {
                "id": "clock", "name": "CLOCK", "values": ["on", "off"], "factory": "on",
                "where": "MENU > 2", "governs": "clock-send",
            },
        ],
        "send": [{"what": "clock", "setting": "clock"}],
        "programs": {"banks": {"count": 10, "first": 1}, "slots": {"count": 3, "first": "A"}},
        "control": [
            {"id": "mix", "name": "Mix", "number": 14},
            {"id": "time", "name": "Time", "number": 15, "message": "cc14", "high": 16383},
        ],
        "power": {"millivolts": 9000, "polarity": "centre-negative"},
        "size": {"width": 100, "depth": 90},
    }  # fmt: skip
    return make_chart("bramley", sockets, **(made | more))


def full_controller(**more: Any) -> Document:
    """A foot controller with a pedal input and a relay loop, and nothing wrong with it."""
    sockets = [
        midi_out(),
        socket("exp", "expression-in", "trs-6.35"),
        socket("send", "audio-out", JACK),
        socket("back", "audio-in", JACK),
    ]
    made: Document = {
        "pedal": [{"socket": "exp"}],
        "loop": [{"id": "loop-1", "send": "send", "return": "back"}],
    }
    return make_controller("braeburn", sockets, **(made | more))


def problems(document: Document) -> list[tuple[str, str]]:
    """Address and sentence of everything that is wrong in a chart document."""
    found = check_chart(ChartShape.model_validate(document))
    return [(str(one.address), str(one)) for one in found]


def addresses(document: Document) -> list[str]:
    """The addresses of everything that is wrong."""
    return [address for address, _ in problems(document)]
