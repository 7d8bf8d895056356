import os
from pathlib import Path

import pytest

from thruline.wiring import WORKSHOP_VARIABLE
from tools.scratch import scratch


@pytest.mark.parametrize("before", [None, "elsewhere"])
def test_everything_is_put_back(monkeypatch, before):
    monkeypatch.delenv(WORKSHOP_VARIABLE, raising=False)
    if before is not None:
        monkeypatch.setenv(WORKSHOP_VARIABLE, before)
    here = Path.cwd()
    with scratch() as folder:
        assert Path.cwd() == folder.resolve()
        assert os.environ[WORKSHOP_VARIABLE].startswith(str(folder))
    assert Path.cwd() == here
    assert os.environ.get(WORKSHOP_VARIABLE) == before
    assert not folder.exists()
