"""Boards for searches: a controller, a line of units that can be set wrongly in many ways."""

from functools import cache
from typing import Any

from tests.rigs import make_cable, make_chart, make_controller, make_rig, make_unit, socket
from thruline.find.field import FIRST, Field, field_of
from thruline.find.kinds import Kind
from thruline.find.meant import Meant, meant_by
from thruline.find.search import Did, Search, Step, Verdict
from thruline.find.standing import Standing, stand
from thruline.find.suspect import Suspect
from thruline.proof.case import Case
from thruline.rig.whole import Rig


def setting(name: str, governs: str, *values: str) -> dict[str, Any]:
    return {
        "id": name, "name": name.title(), "values": list(values), "factory": values[0],
        "where": f"MENU > {name}", "governs": governs,
    }  # fmt: skip


def box(chart_id: str, **more: Any) -> dict[str, Any]:
    """A unit with programs, a knob, a switch, and every menu item that can be wrong."""
    return make_chart(
        chart_id,
        [
            {"id": "midi-in", "kind": "midi-in", "connector": "din5", "isolated": True},
            {"id": "midi-out", "kind": "midi-out", "connector": "din5"},
            {"id": "power-in", "kind": "power-in", "connector": "barrel-2.1"},
        ],
        output=[{"socket": "midi-out", "ways": ["thru-soft", "off"], "latency-us": 200}],
        setting=[
            setting("midi-out", "output", "thru-soft", "off") | {"socket": "midi-out"},
            setting("receive", "program-receive", "on", "off"),
            setting("knobs", "control-receive", "on", "off"),
            setting("omni", "omni", "off", "on"),
            setting("clock", "clock-receive", "on", "off"),
        ],
        channel={"factory": 1, "omni": "setting"},
        programs={"slots": {"count": 128, "first": 1}},
        control=[
            {"id": "mix", "name": "Mix", "number": 14, "stored": True},
            {"id": "trails", "name": "Trails", "number": 19, "kind": "switch", "stored": True},
        ],
        settle={"ms": 20, "controls": "lost"},
        power={"millivolts": 9000, "polarity": "centre-negative", "milliamps": 200},
        **more,
    )


def supply() -> dict[str, Any]:
    outlet = {"millivolts": 9000, "polarity": "centre-negative", "milliamps": 220, "isolated": True}
    return make_chart(
        "elstar",
        [socket(f"outlet-{n}", "power-out", "barrel-2.1") for n in (1, 2, 3)],
        channel=None,
        outlet=[
            {"socket": "outlet-1", **outlet},
            {"socket": "outlet-2", **outlet},
            {"socket": "outlet-3", **outlet, "millivolts": 12000},
        ],
    )


def feet() -> dict[str, Any]:
    return make_controller(
        "braeburn",
        [
            {"id": "midi-out", "kind": "midi-out", "connector": "din5"},
            socket("exp-1", "expression-in", "trs-6.35"),
        ],
        pedal=[{"socket": "exp-1", "moves": 2, "on-recall": True, "wiring": "wiper-on-tip"}],
        send=[{"what": "clock", "factory": "on"}],
        controller={
            "presets": 128, "pauses": {"step-ms": 1, "longest-ms": 500},
            "sends": ["program", "control"],
        },
    )  # fmt: skip


def treadle() -> dict[str, Any]:
    return make_chart(
        "costard",
        [socket("out", "expression-out", "trs-6.35")],
        channel=None,
        expression={"wiring": "wiper-on-tip", "ohms": 10000, "taper": "linear"},
    )


def make_board(count: int = 3) -> Rig:
    """The controller, so many units in a line, a supply for the first two, and a pedal."""
    boxes = [f"box-{number}" for number in range(1, count + 1)]
    starts = ["feet", *boxes]
    return make_rig(
        [
            make_unit("feet", "braeburn"),
            *(make_unit(one, "bramley", channel=n + 2) for n, one in enumerate(boxes)),
            make_unit("supply", "elstar"),
            make_unit("treadle", "costard"),
        ],
        [
            *(
                make_cable(f"{a}.midi-out", f"{b}.midi-in")
                for a, b in zip(starts, boxes, strict=False)
            ),
            *(
                make_cable(f"supply.outlet-{n}", f"{one}.power-in", "barrel-2.1/barrel-2.1")
                for n, one in enumerate(boxes[:2], 1)
            ),
            make_cable("treadle.out", "feet.exp-1", "trs-6.35/trs-6.35"),
        ],
        [feet(), box("bramley"), supply(), treadle()],
        preset=[
            {
                "number": 1,
                "name": "Overture",
                **{
                    one: {"program": 20 * n, "mix": 40 + n, "trails": "on"}
                    for n, one in enumerate(boxes, 1)
                },
            },
            {
                "number": 2,
                "name": "Balcony",
                **{one: {"program": 20 * n + 7} for n, one in enumerate(boxes, 1)},
            },
        ],
    )


@cache
def meant(count: int = 3) -> Meant:
    return meant_by(Case(make_board(count)))


@cache
def field(count: int = 3) -> Field:
    return field_of(Case(make_board(count)))


def suspect(kind: Kind, on: str = "", count: int = 3) -> Suspect:
    """The first suspect of this kind, on a thing whose name begins so."""
    return next(one for one in field(count).suspects if one.kind is kind and one.on.startswith(on))


def row_of(suspect: Suspect, count: int = 3) -> int:
    return field(count).suspects.index(suspect) + FIRST


def shown(suspect: Suspect | None, check_id: str, count: int = 3) -> str:
    """What a check shows on a board with this fault, as predicted."""
    here = field(count)
    place = here.place_of[check_id]
    row = 0 if suspect is None else row_of(suspect, count)
    return here.answers[place][here.outcomes[row, place]]


def until_due(suspect: Suspect, search: Search, count: int = 3) -> Standing:
    """A search on a board with this fault, answered rightly until a mend is due or it ends."""
    standing = stand(field(count), search)
    while standing.check is not None:
        answer = shown(suspect, standing.check.id, count)
        search = search.after(Step(Did.ANSWERED, standing.check.id, answer))
        standing = stand(field(count), search)
    return standing


def played(suspect: Suspect | None, search: Search | None = None, count: int = 3) -> Search:
    """A search on a board with this fault, answered rightly to its end, the mend made."""
    here, going, truth = field(count), search or Search(), suspect
    standing = stand(here, going)
    while not standing.verdict.is_end:
        if standing.verdict is Verdict.MEND and standing.mend is not None:
            going = going.after(Step(Did.MENDED, standing.mend.mend_key))
            if truth is not None and standing.mend.mend_key == truth.mend_key:
                truth = None
        elif standing.check is not None:
            answer = shown(truth, standing.check.id, count)
            going = going.after(Step(Did.ANSWERED, standing.check.id, answer))
        standing = stand(here, going)
    return going
