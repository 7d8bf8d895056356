import pytest

from thruline.document.places import BOM
from thruline.document.problems import BadDocument
from thruline.document.read import read


def problems_of(text):
    with pytest.raises(BadDocument) as bad:
        read(text, file="f")
    return bad.value.problems


@pytest.mark.parametrize(
    ("text", "place", "says"),
    [
        ("name = Balcony", "1:8", "Balcony needs quotation marks"),
        ("mix = 50%", "1:7", "50% needs quotation marks"),
        ("t = 350 ms # slow", "1:5", "350 ms needs quotation marks"),
        ("d = { p = 11B, mix = 1 }", "1:11", "11B needs quotation marks"),
        ("x = [a, b]", "1:6", "a needs quotation marks"),
        ("ch = 03", "1:6", 'a number does not begin with 0: write 3, or "03" if it is text'),
        ("x = True", "1:5", "True must be written true"),
        ("y = 0,5", "1:5", "a decimal number has a point, not a comma"),
        ("z = .5", "1:5", "a number needs a digit before its point: 0.5"),
        ("a = ", "1:5", "there is no value here"),
        ("n = “Bal”", "1:5", "these quotation marks are curly; straight ones are needed"),
        ('x = "a" "b"', "1:9", "nothing may follow the value in its row but a # comment"),
        ("x = 1 y = 2", "1:7", "nothing may follow the value in its row but a # comment"),
        ("a = 1\rb = 2", "1:6", "this row does not end as rows do"),
        ('name: "x"', "1:5", "here belongs = instead of :"),
        ("größe = 1", "1:3", "a key with ö in it needs quotation marks"),
        ("my key = 1", "1:4", "after the key my an = and a value are missing"),
        ("= 1", "1:1", "a row begins with a key, with a [table] or with a # comment"),
        ("a. = 1", "1:4", "a key cannot begin with =; in quotation marks it can"),
        ("[]", "1:2", "a key cannot begin with ]; in quotation marks it can"),
        ("[", "1:2", "a key is missing here"),
        ("a = {x=1,}", "1:10", "there is a comma too many before this }"),
        ("a = {x=1,\ny=2}", "1:5", "a table in { } must stand in one row"),
        ("a = {x=1", "1:5", "this table is never closed: a } is missing"),
        ("a = {x=1\n}", "1:5", "a table in { } must stand in one row"),
        ("a = {x=1 y=2}", "1:10", "a comma or } is missing before this"),
        ("a = [1, 2", "1:5", "this list is never closed: a ] is missing"),
        ("a = [1 2]", "1:8", "a comma or ] is missing before this"),
        ("a = [\n1\n2\n]", "3:1", "in the list that begins in row 1"),
        ("[rig\nx=1", "1:5", "the name of a table ends with ]"),
        ("[[rig]\n", "1:6", "the name of a table ends with ]]"),
        ("a=1\n[b]\nc=1\nc=2", "4:1", '"c" is given twice: first in row 3'),
        ("a={b=1,b=2}", "1:8", '"b" is given twice: first in row 1'),
        ("[a]\n[a]", "2:1", '"a" is given twice: first in row 1'),
        ("a=1\n[a.b]", "2:1", "what stands here has a value already"),
        ('p = "C:\\music"', "1:8", "a \\ in text is written twice"),
        ('p = "\\u12"', "1:8", "\\u stands before the four hexadecimal digits"),
        ('p = "\\ud800"', "1:12", "\\u stands before the four hexadecimal digits"),
        ('n = "abc\nb = 1', "1:5", 'this text is never closed: " is missing at its end'),
        ("n = 'abc\nb = 1", "1:5", "this text is never closed: ' is missing at its end"),
        ('n = """abc\nb = 1', "1:5", 'this text is never closed: """ is missing at its end'),
        ("n = '''abc\nb = 1", "1:5", "this text is never closed: ''' is missing at its end"),
        ("a = \x07", "1:5", "a control character (code 7) cannot stand here"),
        ("# \x01", "1:3", "a control character (code 1) cannot stand here"),
        ("# a\rb = 1\r", "1:4", "save the file with ordinary row ends"),
        ("d = 2026-02-30", "1:5", "2026-02-30 is not a day of the calendar"),
        (f"{BOM}a = b", "1:5", "b needs quotation marks"),
        ("a = 1\r\nb = c\r\n", "2:5", "c needs quotation marks"),
    ],
)
def test_what_is_said_of_a_fault(text, place, says):
    problem = problems_of(text)[0]
    assert str(problem.spot) == f"f:{place}"
    assert says in problem.says


def test_an_example_shows_the_key():
    assert problems_of("mix = 50%")[0].example == 'mix = "50%"'
    assert problems_of("x = [a]")[0].example == '"a"'


def test_faults_in_single_rows_are_told_together():
    text = "a = x\nb = 1\n[t]\nc = 50%\nd = { e = y }\nf = [\n  z,\n]\n"
    assert [problem.spot.row for problem in problems_of(text)] == [1, 4, 5, 7]


def test_after_a_fault_that_spoils_more_than_its_row_nothing_is_guessed():
    assert [problem.spot.row for problem in problems_of("a = [1, 2\nb = c\nd = e\n")] == [2]
    assert len(problems_of("[a\nb = c\n")) == 1


def test_only_so_many_are_told():
    with pytest.raises(BadDocument) as bad:
        read("".join(f"a{n} = x\n" for n in range(70)), file="f")
    assert len(bad.value.problems) == 50
    assert bad.value.more == 20
    assert bad.value.says.endswith("\nand 20 more")


def test_a_long_row_is_quoted_in_part():
    problem = problems_of("a = " + "x" * 9999)[0]
    assert len(problem.says) < 80
    assert len(problem.excerpt.row) < 110
    assert len(problem.example) < 60
