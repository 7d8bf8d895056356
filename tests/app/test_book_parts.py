"""The parts of a book."""

import pytest

from tests.opening import open_text
from thruline.app.book_parts import PARTS, Material, faults_paper, material_for
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.papers.book import Drawing
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_preset, a_unit, board

GOOD = material_for(open_text(sample_text(ORCHARD_STREET)))


@pytest.mark.parametrize("name", PARTS)
def test_every_part_of_the_sample_is_filled(name):
    part = PARTS[name](GOOD)
    assert part is not None
    assert part.name == name
    assert part.blocks


def test_a_rig_without_songs_and_pedals_has_fewer_parts():
    it = material_for(open_text(board(DELAY, TO_DELAY, a_preset(1, "One", 'delay = "1A"')).rig))
    assert PARTS["sweeps"](it) is None
    assert "All presets" in str(PARTS["stage"](it))


def test_a_rig_without_a_controller_says_so():
    text = f'format = 1\n[rig]\nname = "Bare"\ncontroller = "nobody"\n{DELAY}'
    it = Material(material_for(open_text(text)).state)
    assert "no controller" in faults_paper(it).about[0]
    for make in PARTS.values():
        make(it)
    assert PARTS["setlist"](it) is None


def test_the_line_has_the_way_to_each_unit_and_a_timing_chart():
    part = PARTS["line"](GOOD)
    drawings = [one for one in part.blocks if isinstance(one, Drawing)]
    assert drawings
    assert "all right at" in drawings[0].says
    rows = part.blocks[0].table.rows
    ways = {row[0]: row[2] for row in rows}
    assert ways["Bramley Delay"] == (
        "MIDI OUT 1 to Egremont Preamp MIDI IN, "
        "passed on (soft thru) at MIDI OUT/THRU to Bramley Delay MIDI IN"
    )


def test_cables_have_the_contacts_of_all_that_are_there():
    part = PARTS["cables"](GOOD)
    titles = [one.title for one in part.blocks if one.title.startswith("Wiring: ")]
    wired = {number for one in titles for number in one.removeprefix("Wiring: ").split(", ")}
    kinds = {plan.number: plan.kind.name for plan in GOOD.cables.cables}
    assert wired == {number for number, kind in kinds.items() if kind != "USB"}


def test_the_way_is_the_one_that_messages_take():
    pieces = (
        a_unit("merge", "kidd-merge"),
        a_unit("delay", "bramley-delay", "channel = 3", 'sent-over = "midi-out-2"'),
        a_cable("feet.midi-out-1", "merge.in-1"),
        a_cable("feet.midi-out-2", "merge.in-2"),
        a_cable("merge.output", "delay.midi-in"),
    )
    routed = material_for(open_text(board(*pieces, controller="pearmain-ten").rig))
    (row,) = PARTS["line"](routed).blocks[0].table.rows
    assert row[2].startswith("LINE B to ")
