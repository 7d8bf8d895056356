import pytest

from tests.find.boards import field
from thruline.binding import REPORTS
from thruline.cli.find_report import FORMS, write_report
from thruline.find.search import Search
from thruline.find.standing import stand


@pytest.mark.parametrize("ending", list(FORMS))
def test_the_name_says_how_it_is_written(tmp_path, ending):
    file = tmp_path / f"search{ending}"
    write_report(str(file), stand(field(), Search()))
    content = file.read_bytes()
    assert content.startswith(b"%PDF") if ending == ".pdf" else b"What is left" in content


def test_every_name_of_a_report_says_how():
    assert set(FORMS) == set(REPORTS)
