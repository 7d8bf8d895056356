import pytest

from tests.find.boards import make_board
from thruline.app.audited import experience_by_audit
from thruline.audit.fault import Family
from thruline.base.errors import CannotUse
from thruline.proof.case import Case

CASE = Case(make_board())


def told(family, *units, odds=0.8, **more):
    fault = {"family": family.value, "on": list(units), "says": "", "look_at": ""}
    causes = [{"odds": odds, "faults": [fault]}]
    return {"answers": "audit", "rig": CASE.rig.name, "causes": causes, **more}


def test_a_cause_raises_the_suspects_that_explain_it():
    found = experience_by_audit(CASE, told(Family.CHANNEL, "box-2"))
    assert found.seen == pytest.approx({"entry-other-channel@box-2": 4.0})
    assert not found.expected


def test_a_cause_of_the_whole_controller_raises_all():
    found = experience_by_audit(CASE, told(Family.FILTER))
    assert {name.partition("@")[0] for name in found.seen} >= {"entry-missing"}
    assert sum(found.seen.values()) == pytest.approx(4.0)


@pytest.mark.parametrize("family", list(Family))
def test_every_family_is_known(family):
    assert all(count > 0 for count in experience_by_audit(CASE, told(family)).seen.values())


@pytest.mark.parametrize(
    "wrong",
    [{}, {"answers": "proof"}, told(Family.STALE, rig="another"), told(Family.STALE, causes=[1])],
)
def test_what_is_no_answer_about_this_rig_is_refused(wrong):
    with pytest.raises(CannotUse):
        experience_by_audit(CASE, wrong)
