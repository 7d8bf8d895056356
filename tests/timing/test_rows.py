from tests.rigs import (
    make_cable,
    make_chain,
    make_chart,
    make_controller,
    make_line,
    make_rig,
    make_unit,
    midi_in,
    midi_out,
)
from tests.timing.played import full_chart, ground_of, program, run_over
from thruline.path.stations import stations
from thruline.timing.rows import LoopState, RowKind, rows_of


def rows(rig, *items, loops=()):
    ground = ground_of(rig)
    run = run_over(ground, *items)
    return rows_of(run, ground, stations(ground.wires, rig.controller), loops=loops)


def test_a_row_says_what_a_unit_is_and_how_it_is_set():
    soft = {"output": [{"socket": "midi-out", "ways": ["thru-soft"], "latency-us": 900}]}
    feet, first, last = rows(make_line(2, **full_chart(**soft)))
    assert feet.kind is RowKind.CONTROLLER
    assert first.about == "Effect · ch 1 · soft thru 0.90 ms"
    assert last.about == "Effect · ch 2 · end of the line"


def test_a_row_says_when_its_unit_is_right():
    found = rows(make_line(2, **full_chart()), program("unit-2", 2))
    assert [row.right_us for row in found] == [None, None, 2 * 640 + 20_000]


def test_the_first_unit_behind_a_cut_says_why_it_hears_nothing():
    found = rows(make_line(3, **full_chart(ways=("own",))))
    assert [bool(row.silent) for row in found] == [False, False, True, True]
    assert [row.is_cut for row in found] == [False, False, True, False]
    assert found[2].silent == "Orchard Bramley MIDI OUT passes nothing on"


def test_a_unit_in_a_relay_loop_has_a_row_below_the_owner_of_the_loop():
    units = [make_unit("feet", "braeburn"), make_unit("drive", "drive", name="Russet Drive")]
    units.append(make_unit("pre", "bramley"))
    charts = [make_controller(), make_chart(), make_chart("drive", [midi_out()], channel=None)]
    rig = make_rig(units, make_chain("feet", "pre"), charts)
    found = rows(rig, loops=[LoopState("drive", "feet", "loop 2", "in")])
    assert [row.unit for row in found] == ["feet", "drive", "pre"]
    assert (found[1].kind, found[1].state) == (RowKind.LOOP, "in")
    assert found[1].about == "Effect · loop 2 of Orchard Braeburn"
    assert found[2].above == 0


def test_a_unit_on_the_line_says_its_loop_in_its_own_row():
    found = rows(make_line(1), loops=[LoopState("unit-1", "feet", "loop 1", "out")])
    assert len(found) == 2
    assert found[1].about.endswith("loop 1 out")


def test_a_unit_that_hears_every_channel_and_one_that_nobody_knows():
    charts = [make_controller(), make_chart("all", channel={"omni": "always"})]
    charts.append(make_chart("vague", setting=None, ways=("thru-wire", "own")))
    units = [make_unit("feet", "braeburn"), make_unit("one", "vague", channel=3)]
    units.append(make_unit("two", "all"))
    found = rows(make_rig(units, make_chain("feet", "one", "two"), charts))
    assert found[1].about == "Effect · ch 3 · thru or not: cannot be told"
    assert "every channel" in found[2].about


def test_feeders_from_the_side_move_with_the_rows():
    ins = [midi_in("in-1"), midi_in("in-2")]
    charts = [make_controller(sockets=[midi_out("out-1"), midi_out("out-2")]), make_chart()]
    charts += [
        make_chart("two-ins", [*ins, midi_out()]),
        make_chart("drive", [midi_out()], channel=None),
    ]
    units = [
        make_unit("feet", "braeburn"),
        make_unit("pre", "bramley"),
        make_unit("two", "two-ins"),
    ]
    units.append(make_unit("drive", "drive"))
    cables = [make_cable("feet.out-1", "pre.midi-in"), make_cable("pre.midi-out", "two.in-1")]
    cables.append(make_cable("feet.out-2", "two.in-2"))
    found = rows(make_rig(units, cables, charts), loops=[LoopState("drive", "feet", "loop", "in")])
    assert [(row.unit, row.above, row.joins) for row in found] == [
        ("feet", None, ()), ("drive", None, ()), ("pre", 0, ()), ("two", 0, (2,)),
    ]  # fmt: skip
