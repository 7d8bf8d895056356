from dataclasses import dataclass

from thruline.app.chart_heads import chart_heads
from thruline.outside.shelves import sample_shelf
from thruline.workshop.face import Sheet


@dataclass
class Few:
    held: dict[str, bytes]
    says: str = "here"

    def find(self, chart_id):
        content = self.held.get(chart_id)
        return None if content is None else Sheet(f"{chart_id}.chart.toml", content)

    def ids(self):
        return tuple(sorted(self.held))


def test_a_chart_is_offered_with_what_it_is_of():
    heads = chart_heads([sample_shelf()])
    assert {"id": "bramley-delay", "says": "Bramley Delay, delay"} in heads


def test_a_chart_that_cannot_be_read_is_offered_by_its_id():
    held = {
        "a": b"[[chart",
        "b": b"\xff",
        "c": b'chart = "x"',
        "d": b'[chart]\nmodel = "Two"',
        "e": b"x = " + b"[" * 5000,
    }
    assert [(one["id"], one["says"]) for one in chart_heads([Few(held)])] == [
        ("a", ""),
        ("b", ""),
        ("c", ""),
        ("d", "Two"),
        ("e", ""),
    ]


def test_the_first_shelf_counts():
    shelves = [Few({"a": b'[chart]\nkind = "delay"'}), Few({"a": b'[chart]\nkind = "reverb"'})]
    assert chart_heads(shelves) == [{"id": "a", "says": "delay"}]
