import pytest

from tests.samples.reading import SAMPLES
from thruline.outside.samples import AS_FOUND, FIRST_BOARD, ORCHARD_STREET, sample_text


@pytest.mark.parametrize("place", [AS_FOUND, FIRST_BOARD, ORCHARD_STREET])
def test_packaged_documents(place):
    assert sample_text(place) == (SAMPLES / place).read_text(encoding="utf-8")
