from hypothesis import given

from tests.path.boards import Board, boards
from tests.rigs import make_line
from tests.timing.played import control, full_chart, ground_of, program, run_over
from tests.timing.test_trail import HANDS, ITEMS
from thruline.rig.chart import Meanwhile
from thruline.timing.picture import Bar, Least, Told, picture_of


def picture(rig, *items, **told):
    ground = ground_of(rig)
    return picture_of(run_over(ground, *items), ground, Told(**told))


def test_the_bar_of_a_loading_unit():
    found = picture(make_line(2, **full_chart()), program("unit-2", 2))
    assert found.bars == (Bar(2, 1280, 21_280, Meanwhile.LOST),)
    assert found.right_us == found.span_us == 21_280


def test_messages_by_their_labels_and_else_by_their_bytes():
    items = [program("unit-1", 1), control("unit-1", 1)]
    found = picture(make_line(1, **full_chart()), *items, labels=["Unit 1: program 1"])
    assert [one.says for one in found.messages] == ["Unit 1: program 1", "B0 0E 40"]
    assert [one.leaves_us for one in found.messages] == [0, 640]


def test_what_goes_wrong_is_told_apart():
    items = [program("unit-1", 1), control("unit-1", 1), control("unit-2", 1)]
    found = picture(make_line(2, **full_chart()), *items)
    assert [fall.message for fall in found.failed] == [1, 2]
    assert found.untold == found.strays == ()


def test_title_and_bound_are_handed_on():
    found = picture(make_line(1), title="press 1", least=Least(10, proved=True))
    assert (found.title, found.least) == ("press 1", Least(10, proved=True))


def test_an_addressed_unit_without_a_cable_has_a_row():
    found = picture(make_line(1, ways=("own",)), program("unit-1", 1))
    assert [row.unit for row in found.rows] == ["feet", "unit-1"]


def test_nothing_is_sent():
    found = picture(make_line(2))
    assert found.messages == found.falls == found.bars == ()
    assert (found.right_us, found.span_us) == (0, 1)


@given(boards(), ITEMS, HANDS)
def test_the_picture_agrees_with_the_run(board: Board, items, hand):
    ground = ground_of(board.rig(), hand)
    run = run_over(ground, *items)
    found = picture_of(run, ground, Told())
    rights = {row.unit: row.right_us for row in found.rows}
    assert found.right_us == run.right_us
    for unit, reception in run.receptions.items():
        if reception.right_us is not None:
            assert rights[unit] == reception.right_us
    assert max([row.right_us or 0 for row in found.rows]) == run.right_us


@given(boards(), ITEMS)
def test_every_loading_is_a_bar_and_begins_where_a_message_ends(board: Board, items):
    ground = ground_of(board.rig())
    run = run_over(ground, *items)
    found = picture_of(run, ground, Told())
    spans = [span for one in run.receptions.values() for span in one.loading if span[1] > span[0]]
    assert sorted((bar.start_us, bar.end_us) for bar in found.bars) == sorted(spans)
    ends = {(fall.points[-1].row, fall.points[-1].us) for fall in found.falls}
    assert all((bar.row, bar.start_us) in ends for bar in found.bars)


@given(boards(), ITEMS)
def test_rows_stand_in_the_order_of_the_way(board: Board, items):
    """A fall never climbs, unless the message has gone round a ring or to a unit heard before."""
    ground = ground_of(board.rig())
    run = run_over(ground, *items)
    found = picture_of(run, ground, Told())
    for fall in found.falls:
        units = [leg.link.stop.unit for leg in fall.legs]
        if not ground.wires.rings and len(set(units)) == len(units) and _no_loops(ground):
            rows = [point.row for point in fall.points]
            assert rows == sorted(rows)


def _no_loops(ground):
    """Whether no unit leads back to itself, not even by outputs that pass on other inputs."""
    ways = {}
    for link in ground.wires.links:
        ways.setdefault(link.start.unit, set()).add(link.stop.unit)

    def leads(start, goal, seen):
        for unit in ways.get(start, ()):
            if unit == goal or (unit not in seen and leads(unit, goal, seen | {unit})):
                return True
        return False

    return not any(leads(unit, unit, {unit}) for unit in ways)
