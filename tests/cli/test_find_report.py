import pytest

from tests.find.boards import field
from thruline.base.errors import CannotUse
from thruline.cli.find_report import FORMS, form_of, write_report
from thruline.find.search import Search
from thruline.find.standing import stand


@pytest.mark.parametrize("ending", list(FORMS))
def test_the_name_says_how_it_is_written(tmp_path, ending):
    file = tmp_path / f"search{ending}"
    write_report(str(file), stand(field(), Search()))
    content = file.read_bytes()
    assert content.startswith(b"%PDF") if ending == ".pdf" else b"What is left" in content


def test_another_name_is_refused():
    with pytest.raises(CannotUse, match=r"should end in \.html"):
        form_of("search.doc")
