"""What is to be ordered, and how good an order is."""

from thruline.compose.jobs import Ordered, Proof


def ordered(bound_us: int, proof: Proof) -> Ordered:
    return Ordered(
        slots=(),
        lost=(),
        right_us=(),
        makespan_us=1000,
        weighted_us=0,
        bound_us=bound_us,
        proof=proof,
    )


def test_every_proof_but_none_is_a_proof() -> None:
    assert {proof for proof in Proof if not ordered(900, proof).proved} == {Proof.NOT_PROVED}


def test_the_gap_is_said_only_where_it_is_not_proved() -> None:
    assert ordered(900, Proof.NOT_PROVED).gap == 0.1
    assert ordered(900, Proof.SEARCHED_WHOLE).gap == 0.0
