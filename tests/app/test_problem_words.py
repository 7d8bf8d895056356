from thruline.app.problem_words import MOST_TOLD, problems_in_words
from thruline.base.spot import Spot
from thruline.document.problems import BadDocument, Excerpt, Problem


def low(row=18, file="rigs/of/anna/pit.rig.toml", example="width = 120"):
    return Problem(
        spot=Spot(file, row, 19),
        says="0 is too low: the least is 1",
        allowed="a whole number from 1 to 5000",
        example=example,
        excerpt=Excerpt(row="board = { width = 0 }", start=18, length=1),
    )


def test_a_page_is_told_what_is_wrong_what_belongs_there_and_an_example():
    assert problems_in_words(BadDocument([low()])) == (
        "0 is too low: the least is 1; here belongs a whole number from 1 to 5000; for example 120"
    )


def test_of_several_the_keys_are_named_and_the_rest_is_counted():
    told = problems_in_words(BadDocument([low(), low(example="depth = 95"), *[low()] * 4], more=2))
    assert told.startswith("width: 0 is too low")
    assert "depth: 0 is too low" in told
    assert told.endswith(f"And {6 - MOST_TOLD + 2} more")


def test_rows_are_named_for_who_has_the_document_and_of_charts_always():
    assert problems_in_words(BadDocument([low()]), has_rows=True).startswith("row 18: 0 is")
    chart = low(file="rigs/of/anna/charts/echo.chart.toml")
    assert problems_in_words(BadDocument([chart])).startswith("echo.chart.toml, row 18: 0 is")


def test_an_example_that_says_nothing_more_and_one_of_several_rows_are_left_out():
    text = Problem(
        spot=Spot("a.rig.toml", 1, 1),
        says="this text is too long",
        allowed='text like "Swell"',
        example='name = "Swell"',
    )
    assert problems_in_words(BadDocument([text])) == (
        'this text is too long; here belongs text like "Swell"'
    )
    assert "for example" not in problems_in_words(BadDocument([low(example="[[unit]]\nid = 1")]))
    assert "for example" not in problems_in_words(BadDocument([low(example="at = { x = 1 }")]))
