import pytest

from tests.sameness.boards import BANKS, board, delay_chart, look
from thruline.rig.programs import WireProgram
from thruline.sameness.codes import AS_POWERED, IN, KEEPS, OUT, UNTOLD, own_code
from thruline.sameness.columns import ColumnKind
from thruline.sameness.words import in_words, name_of, program_label

FOUND = look(board([], chart=delay_chart(programs=BANKS)))
FIVE = own_code(WireProgram(1, 5))


@pytest.mark.parametrize(
    ("part", "kind", "code", "words"),
    [
        ("mix", ColumnKind.CONTROL, 64, "64"),
        ("trails", ColumnKind.CONTROL, 127, "on"),
        ("division", ColumnKind.CONTROL, 104, "eighth"),
        ("mix", ColumnKind.CONTROL, FIVE, "what program 2.5 holds"),
        ("mix", ColumnKind.CONTROL, AS_POWERED, "what it powers up with"),
        ("mix", ColumnKind.CONTROL, KEEPS, "as it was"),
        ("mix", ColumnKind.CONTROL, UNTOLD, "what nobody can tell"),
        ("program", ColumnKind.PROGRAM, FIVE, "program 2.5"),
        ("lsb", ColumnKind.BANK, 3, "3"),
    ],
)
def test_in_words(part: str, kind: ColumnKind, code: int, words: str) -> None:
    column = FOUND.layout.columns[FOUND.layout.find("delay", part, kind)]
    assert in_words(code, column, FOUND.rig.units["delay"]) == words


def test_a_loop() -> None:
    column = FOUND.layout.columns[FOUND.layout.find("feet", "loop-1", ColumnKind.LOOP)]
    feet = FOUND.rig.units["feet"]
    assert [in_words(code, column, feet) for code in (IN, OUT)] == ["in", "out"]


def test_names() -> None:
    names = {name_of(column) for column in FOUND.layout.columns if column.unit != "reverb"}
    assert {"Mix", "program", "bank MSB", "bank LSB", "loop-1"} <= names


def test_a_program_without_a_label() -> None:
    assert program_label(FOUND.rig.units["delay"], WireProgram(9, 5)) == "program 5"
