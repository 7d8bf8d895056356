"""Making the environment for real takes a minute and the network; here it is all but that."""

import sys

import pytest

from tools import environment as env
from tools.environment import State, environment_of, state_of


@pytest.fixture
def made(tmp_path):
    """A project with an environment as a finished set-up leaves it; its pip is only pretended."""
    for name in env.SETTINGS:
        (tmp_path / name).write_text(f"# {name}\n", encoding="utf-8")
    environment = environment_of(tmp_path)
    library = environment.folder / "lib" / "python3" / "site-packages"
    for folder in (environment.python.parent, library / "click-8.5.1.dist-info"):
        folder.mkdir(parents=True)
    environment.python.symlink_to(sys.executable)
    environment.python.with_name("activate").write_text(str(environment.folder), encoding="utf-8")
    environment.thruline.touch()
    environment.stamp.write_text(env.stamp_text(environment), encoding="utf-8")
    return environment


def test_a_finished_environment_is_ready(made) -> None:
    assert state_of(made) is State.READY


def test_nothing_is_absent(tmp_path) -> None:
    assert state_of(environment_of(tmp_path)) is State.ABSENT


@pytest.mark.parametrize("name", env.SETTINGS)
def test_changed_settings_make_it_stale(made, name) -> None:
    (made.root / name).write_text("# changed\n", encoding="utf-8")
    assert state_of(made) is State.STALE


def test_a_library_taken_out_makes_it_stale(made) -> None:
    next(made.folder.glob("lib/*/*/click-*")).rmdir()
    assert state_of(made) is State.STALE


def test_a_library_added_changes_nothing(made) -> None:
    (made.folder / "lib/python3/site-packages/more-1.0.dist-info").mkdir()
    assert state_of(made) is State.READY


def test_without_a_stamp_it_is_stale(made) -> None:
    made.stamp.unlink()
    assert state_of(made) is State.STALE


def test_an_empty_stamp_is_stale(made) -> None:
    made.stamp.write_text("", encoding="utf-8")
    assert state_of(made) is State.STALE


def test_cut_short_is_broken(made) -> None:
    made.half_made.touch()
    assert state_of(made) is State.BROKEN


def test_a_python_that_is_gone_is_broken(made) -> None:
    made.python.unlink()
    made.python.symlink_to("no-such-python")
    assert state_of(made) is State.BROKEN


def test_a_python_that_does_not_start_is_broken(made) -> None:
    made.stamp.unlink()
    made.python.unlink()
    made.python.write_text("not a program", encoding="utf-8")
    assert state_of(made) is State.BROKEN


def test_moved_is_broken(made, tmp_path_factory) -> None:
    elsewhere = tmp_path_factory.mktemp("elsewhere") / "project"
    made.root.rename(elsewhere)
    assert state_of(environment_of(elsewhere)) is State.BROKEN


def test_the_fingerprint_tells_places_and_pythons_apart(made, tmp_path_factory) -> None:
    other = tmp_path_factory.mktemp("other")
    for name in env.SETTINGS:
        (other / name).write_bytes((made.root / name).read_bytes())
    prints = {env.fingerprint(made.root, (3, 11)), env.fingerprint(made.root, (3, 12))}
    assert len(prints | {env.fingerprint(other, (3, 11))}) == 3


def test_no_network_is_said_in_plain_words(tmp_path) -> None:
    log = tmp_path / "log"
    log.write_text("WARNING: Retrying after NewConnectionError('...')\n", encoding="utf-8")
    assert env.why_pip_failed(log).startswith("The package registry cannot be reached")


def test_any_other_failure_shows_how_pip_ended(tmp_path) -> None:
    log = tmp_path / "log"
    log.write_text("a\n" * 20 + "ERROR: No space left on device\n", encoding="utf-8")
    said = env.why_pip_failed(log)
    assert "No space left on device" in said
    assert str(log) in said


def test_a_python_without_venv_is_told_its_package(made, monkeypatch) -> None:
    monkeypatch.setattr(env.importlib.util, "find_spec", lambda name: None)
    assert "apt install python3.12-venv\n" in env.no_venv_module((3, 12))
    with pytest.raises(env.SetUpFailed, match="without its `venv` module"):
        env.make_folder(made)


def test_rows_are_kept_and_the_exit_code_returned() -> None:
    rows: list[str] = []
    assert env.follow([sys.executable, "-c", "print('a'); print('b'); exit(5)"], rows.append) == 5
    assert rows == ["a\n", "b\n"]


def test_a_failed_set_up_is_made_anew_next_time(tmp_path, monkeypatch) -> None:
    for name in env.SETTINGS:
        (tmp_path / name).touch()
    environment = environment_of(tmp_path)
    monkeypatch.setattr(env, "make_folder", lambda it: it.python.parent.mkdir(parents=True))
    monkeypatch.setattr(env, "follow", lambda command, keep: 1)
    with pytest.raises(env.SetUpFailed):
        env.ready(tmp_path)
    assert state_of(environment) is State.BROKEN


def test_set_up_leaves_a_stamp_and_says_how_to_go_on(tmp_path, monkeypatch, capsys) -> None:
    for name in env.SETTINGS:
        (tmp_path / name).touch()
    environment = environment_of(tmp_path)
    monkeypatch.setattr(env, "make_folder", lambda it: it.python.parent.mkdir(parents=True))
    monkeypatch.setattr(env, "install", lambda it: [it.python.touch(), it.thruline.touch()])
    monkeypatch.setattr(env, "compile_sources", lambda it: None)
    env.ready(tmp_path)
    assert state_of(environment) is State.READY
    assert ".venv/bin/thruline --help" in capsys.readouterr().out.replace("\\", "/")


def test_a_ready_environment_is_left_alone(made, monkeypatch) -> None:
    monkeypatch.setattr(env, "set_up", lambda *given: pytest.fail("set up again"))
    assert env.ready(made.root) == made
