"""A proof as rows of text."""

from tests.opening import open_text
from thruline.app.mend import offers, state_of
from thruline.cli.proof_text import effect_words, proof_rows, summary
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_unit, board

LONG = a_preset(1, "The long farewell at the orchard gate", 'delay = { program = "2A" }')
STATE = state_of(open_text(board(DELAY, TO_DELAY, LONG).rig))


def test_a_finding_says_what_where_why_and_what_to_do() -> None:
    text = "\n".join(proof_rows(STATE.opened, STATE.proof))
    assert text.startswith("RISK    the name of preset 1")
    assert "example.rig.toml:" in text
    assert "document.name-too-long at preset[1].name" in text
    assert "written" in text
    assert 'mend: Shorten it to "The long"' in text
    assert text.splitlines()[-1].startswith("NO FAULTS  Example: no faults, 1 risk;")


def test_weighed_mends_are_named_and_say_what_they_do() -> None:
    weighed = list(offers(STATE))
    text = "\n".join(proof_rows(STATE.opened, STATE.proof, weighed=weighed))
    assert "--do preset.1.name=The-long" in text
    assert effect_words(weighed[0]) == ""
    assert effect_words(None) == ""


def test_no_row_is_wider_than_a_terminal() -> None:
    assert max(map(len, proof_rows(STATE.opened, STATE.proof))) <= 100


def test_what_cannot_be_told_is_listed_apart() -> None:
    state = state_of(
        open_text(
            board(
                a_unit("comp", "nonpareil-compressor", "channel = 6"),
                a_preset(1, "Overture", "comp = { amount = 9 }"),
            ).rig
        )
    )
    rows = list(proof_rows(state.opened, state.proof))
    place = next(number for number, row in enumerate(rows) if row.startswith("CANNOT BE TOLD"))
    assert "nonpareil-compressor" in "\n".join(rows[place:])
    assert "cannot be told" in rows[-1]


def test_the_sum_in_one_row() -> None:
    assert summary(STATE.proof, took_ms=12) == (
        "no faults, 1 risk; 1 preset, 0 changes proved in 12 ms"
    )
