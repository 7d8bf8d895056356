import pytest

from thruline.base.spot import Spot
from thruline.document import read as reading
from thruline.document.places import BOM, MAX_DEPTH
from thruline.document.problems import BadDocument
from thruline.document.read import read


def problem_of(source):
    with pytest.raises(BadDocument) as bad:
        read(source, file="a.toml")
    assert len(bad.value.problems) == 1
    return bad.value.problems[0]


def test_text_and_data():
    assert read(b"a = 1\r\n", file="a.toml") == ("a = 1\r\n", {"a": 1})
    assert read("", file="a.toml") == ("", {})


def test_a_byte_order_mark_is_kept_and_overlooked():
    assert read(f"{BOM}a = 1".encode(), file="a.toml") == (f"{BOM}a = 1", {"a": 1})


@pytest.mark.parametrize(
    ("source", "says"),
    [
        ("a = 1".encode("utf-16"), "UTF-16"),
        ("a = 1".encode("utf-32"), "UTF-32"),
        ("a = 1".encode("utf-16-le"), "UTF-16"),
        ("a = 'é'".encode("latin-1"), "0xE9"),
    ],
)
def test_other_encodings_are_named(source, says):
    problem = problem_of(source)
    assert says in problem.says
    assert "UTF-8" in problem.says


def test_the_spot_of_a_byte_that_is_no_utf8():
    problem = problem_of("ä = 1\nbö = 'é'".encode() + b"\xe9")
    assert problem.spot == Spot("a.toml", 2, 9, 1)
    assert problem.excerpt.row == "bö = 'é'\ufffd"


def test_half_a_character():
    assert problem_of("a = '\ud800'").spot == Spot("a.toml", 1, 6, 1)


def test_too_large(monkeypatch):
    monkeypatch.setattr(reading, "MAX_BYTES", 10)
    assert read("a = 123456", file="a.toml")[1] == {"a": 123456}
    assert "11 bytes" in problem_of("a = 1234567").says


@pytest.mark.parametrize(
    ("text", "column"),
    [
        ("a = " + "[" * 9999 + "]" * 9999, 36),
        ("a = " + "[" * 9999, 36),
        ("a = " + "{a=" * 9999, 98),
        ("a." * 9999 + "b = 1", 1),
        ("a = " + "[" * MAX_DEPTH + "]" * MAX_DEPTH, 35),
        (f"[{'a.' * MAX_DEPTH}a]", 1),
    ],
)
def test_too_deep(text, column):
    problem = problem_of(text)
    assert f"more than {MAX_DEPTH} deep" in problem.says
    assert problem.spot.row == 1
    assert abs(problem.spot.column - column) <= 2


def test_a_row_with_many_dots_is_no_deep_key():
    text = f'about = "{"… and so on ... " * 99}"\n'
    assert read(text, file="a.toml")[0] == text


@pytest.mark.parametrize(
    ("number", "is_held"),
    [
        (str(2**63 - 1), True),
        (str(-(2**63)), True),
        (str(2**63), False),
        ("0x" + "f" * 9999, False),
        ("1" * 9999, False),
    ],
)
def test_whole_numbers_have_64_bits(number, is_held):
    if is_held:
        assert read(f"a = [{number}]", file="a.toml")[1] == {"a": [int(number)]}
    else:
        assert problem_of(f"# x\na = [{number}]").spot.row == 2
