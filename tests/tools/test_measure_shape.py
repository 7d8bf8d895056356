import textwrap

import pytest

from tools import measure_shape
from tools.measure_shape import measure

SAMPLE = '''
    """A module."""

    LIMIT = 3
    """A limit."""


    class Box:
        """A box."""

        def open(self, key, /, how=None, *, kindly=True):
            """Open it.

            Twice if need be.
            """
            # a comment

            text = """
            three rows
            """
            return [key,
                    how,
                    kindly, text]


    async def wait(*args, **options): ...
'''


@pytest.fixture
def module(tmp_path):
    file = tmp_path / "sample.py"
    file.write_text(textwrap.dedent(SAMPLE).strip() + "\n", encoding="utf-8")
    return measure(file)


def test_rows(module) -> None:
    assert (module.rows, module.docstring_rows) == (25, 7)


def test_only_code_counts_in_a_function(module) -> None:
    rows = {function.name: function.code_rows for function in module.functions}
    assert rows == {"open": 7, "wait": 1}


def test_self_is_no_parameter(module) -> None:
    counted = {function.name: function.parameters for function in module.functions}
    assert counted == {"open": 3, "wait": 2}


def test_what_may_be_given_by_position(module) -> None:
    counted = {function.name: function.by_position for function in module.functions}
    assert counted == {"open": 2, "wait": 0}


def test_the_report_names_the_longest(tmp_path, module, monkeypatch) -> None:
    monkeypatch.setattr(measure_shape, "ROOT", tmp_path)
    said = "\n".join(measure_shape.report(tmp_path))
    assert "25  sample.py" in said
    assert "7  sample.py:10 open" in said
