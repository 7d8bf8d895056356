"""Answers as other programs get them."""

import json

from tests.opening import open_text
from thruline.app.answer import FORMAT, answer, difference_json, edit_json, proof_json
from thruline.app.prove import prove_rig
from thruline.base.address import at
from thruline.base.edit import remove, set_to
from thruline.proof.difference import difference
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

LONG = a_preset(1, "The long farewell at the orchard gate")
ACCEPT = (
    '[[accept]]\nfinding = "document.name-too-long at preset[1].name"\nreason = "they know it"\n'
)


def facts(*pieces: str) -> dict[str, object]:
    opened = open_text(board(DELAY, TO_DELAY, *pieces).rig)
    _, proof = prove_rig(opened)
    return answer("prove", **proof_json(opened, proof))


def test_an_answer_names_its_format_and_question() -> None:
    assert answer("rules", rules=[]) == {"format": FORMAT, "answers": "rules", "rules": []}


def test_a_proof_is_plain_json_with_places_in_the_document() -> None:
    found = facts(LONG)
    assert json.loads(json.dumps(found)) == found
    (one,) = found["findings"]  # type: ignore[misc]
    assert one["id"] == "document.name-too-long at preset[1].name"
    assert one["severity"] == "risk"
    (place,) = one["where"]
    assert place["address"] == "preset[1].name"
    assert (place["file"], place["column"]) == ("example.rig.toml", 8)
    assert one["mends"][0]["edits"][0]["do"] == "set"


def test_accepted_findings_carry_their_reason() -> None:
    found = facts(LONG, ACCEPT)
    assert found["findings"] == []
    (one,) = found["accepted"]  # type: ignore[misc]
    assert one["reason"] == "they know it"
    assert found["counts"]["accepted"] == 1  # type: ignore[index]


def test_edits_and_differences() -> None:
    assert edit_json(set_to(at("rig").child("name"), "x")) == {
        "do": "set",
        "address": "rig.name",
        "value": "x",
    }
    assert edit_json(remove(at("preset", 1)))["value"] is None
    opened = open_text(board(DELAY, TO_DELAY, LONG).rig)
    _, proof = prove_rig(opened)
    assert difference_json(difference(proof, proof)) == {"gone": [], "new": [], "newly_untold": []}
