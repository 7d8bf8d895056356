import os

import pytest

from thruline import __main__
from thruline.__main__ import QUICKER, main


def test_it_leaves_with_the_exit_code(monkeypatch):
    monkeypatch.setattr(__main__, "run", lambda: 3)
    with pytest.raises(SystemExit) as left:
        main()
    assert left.value.code == 3


def test_what_the_person_tells_libraries_goes_first(monkeypatch):
    first, *others = QUICKER
    monkeypatch.setenv(first, "7")
    for name in others:
        monkeypatch.setenv(name, "")
        monkeypatch.delenv(name)
    monkeypatch.setattr(__main__, "run", lambda: 0)
    with pytest.raises(SystemExit):
        main()
    assert os.environ[first] == "7"
    assert all(os.environ[name] == QUICKER[name] for name in others)
