import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.measures import BYTE_US, BYTES_PER_SECOND, shown_ms


def test_a_full_line_is_full_for_a_second() -> None:
    assert BYTE_US * BYTES_PER_SECOND == 1_000_000


@pytest.mark.parametrize(
    ("microseconds", "shown"),
    [
        (0, "0.0 ms"),
        (320, "0.32 ms"),
        (960, "0.96 ms"),
        (12_320, "12.3 ms"),
        (1_200_000, "1.2 s"),
    ],
)
def test_times_as_a_person_reads_them(microseconds: int, shown: str) -> None:
    assert shown_ms(microseconds) == shown


@given(st.integers(0, 100_000_000))
def test_what_is_shown_is_near(microseconds: int) -> None:
    number, unit = shown_ms(microseconds).split()
    scale = {"ms": 1000, "s": 1_000_000}[unit]
    assert abs(float(number) * scale - microseconds) <= 0.0501 * scale
