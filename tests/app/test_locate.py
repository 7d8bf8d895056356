import pytest

from tests.find.boards import field, make_board, suspect, until_due
from tests.samples.reading import AS_FOUND
from thruline.app.locate import (
    Did,
    Place,
    Step,
    Verdict,
    begin,
    confirm,
    counts_by_proof,
    field_for,
    spent,
    stand,
    step_for,
    with_symptoms,
)
from thruline.app.prove import prove_rig
from thruline.base.errors import CannotUse
from thruline.find.kinds import Kind
from thruline.proof.case import Case
from thruline.wiring import open_file

BEGUN = stand(field(), begin())
LOOKED = stand(field(), with_symptoms(field(), begin(), ["box-3 does nothing"]))


@pytest.mark.parametrize(
    ("said", "answer"),
    [("none", ""), ("3", "box-3"), ("1 3", "box-1,box-3"), ("box-2, box-1", "box-1,box-2"),
     ("1 and 2", "box-1,box-2")],
)  # fmt: skip
def test_units_are_named_as_people_do(said, answer):
    assert step_for(BEGUN, said) == Step(Did.ANSWERED, "glance 1", answer)


def test_an_answer_is_a_number_an_id_or_its_first_letters():
    check = field().check("look box-1 1")
    for said in ("2", "nothing", "Nothing happens", "nothing h"):
        assert step_for(BEGUN, said, check=check) == Step(Did.ANSWERED, check.id, "nothing")
    with pytest.raises(CannotUse, match="it can be"):
        step_for(BEGUN, "one", check=check)


def test_not_sure_and_cannot_are_answers():
    assert step_for(BEGUN, "n").did is Did.NOT_SURE
    assert step_for(BEGUN, "not sure").did is Did.NOT_SURE
    assert step_for(BEGUN, "can’t do").did is Did.CANNOT


def test_a_mend_is_told_when_it_is_due():
    search = begin()
    for on, answer in (("look box-3 1", "nothing"), ("channel box-3", "other")):
        search = search.after(Step(Did.ANSWERED, on, answer))
    one = suspect(Kind.CHANNEL_ABOVE, "box-3")
    standing = until_due(one, search.after(Step(Did.ANSWERED, "lamp box-3 1", "blinks")))
    assert standing.verdict is Verdict.MEND
    assert step_for(standing, "mended") == Step(Did.MENDED, one.mend_key)
    with pytest.raises(CannotUse, match='answer "mended"'):
        step_for(standing, "3")
    check = confirm(standing)
    assert check is not None
    assert check.unit == "box-3"
    assert spent(standing) == sum(field().check(one.on).seconds for one in standing.search.steps)


def test_a_symptom_is_an_answer():
    assert [step.on for step in LOOKED.search.steps] == ["look box-3 1"]
    assert LOOKED.verdict is Verdict.CHECK


def test_what_the_proof_found_is_suspected_first():
    opened = open_file(AS_FOUND)
    case, proof = prove_rig(opened)
    counts = counts_by_proof(case, proof)
    assert counts
    assert all(count > 0 for count in counts.values())
    plain, led = field_for(case), field_for(case, proof=proof)
    raised = {
        one.id
        for one, before, after in zip(plain.suspects, plain.prior[2:], led.prior[2:], strict=True)
        if after > before
    }
    assert raised <= set(counts)
    assert raised


def test_costs_and_places_can_be_chosen():
    stage = field_for(Case(make_board()), place=Place.STAGE, seconds={"look": 77.0})
    assert stage.check("look box-1 1").seconds == 77
    assert not any(one.id.startswith("supply") for one in stage.checks)
