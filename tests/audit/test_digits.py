import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.audit.digits import is_number


@given(st.integers(0, 999_999_999))
def test_whole_numbers_are_numbers(number):
    assert is_number(str(number))


@pytest.mark.parametrize("text", ["", "²", "-1", "1.5", " 1", "9" * 10, "9" * 5000])
def test_what_int_would_refuse_or_nobody_means(text):
    assert not is_number(text)


@given(st.text(max_size=12))
def test_int_takes_every_number(text):
    if is_number(text):
        assert 0 <= int(text) < 10**9
