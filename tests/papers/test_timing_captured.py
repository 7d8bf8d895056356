from tests.papers.markup import read
from tests.timing.test_captured import at, captured
from thruline.papers.timing_captured import LEGEND
from thruline.papers.timing_svg import timing_svg

SVG = "{http://www.w3.org/2000/svg}"


def drawn(*heard):
    found, picture = captured(*heard)
    root = read(timing_svg(picture, captured=found))
    parts = {one.get("data-part"): one for one in root.iter(f"{SVG}g") if one.get("data-part")}
    return root, parts


def lines(part):
    return [one.get("points") for one in part.iter(f"{SVG}polyline")]


def test_computed_is_pale_and_captured_lies_over_it():
    root, parts = drawn(at(0), at(1), at(2))
    assert float(parts["computed"].get("opacity")) < 0.5
    assert parts["captured"].get("opacity") is None
    assert sorted(lines(parts["computed"])) == sorted(lines(parts["captured"]))
    text = " ".join("".join(one.itertext()) for one in root.iter(f"{SVG}text"))
    assert LEGEND.split(". ")[0] in text


def test_what_differs_is_marked_with_a_word():
    _, parts = drawn(at(0), at(1, data=b"\xb9\x01\x02"), at(2, 40_000))
    words = ["".join(one.itertext()) for one in parts["captured"].iter(f"{SVG}text")]
    assert sorted(words) == ["missing", "not planned"]
    assert not set(lines(parts["captured"])) <= set(lines(parts["computed"])), "one came late"
