from pathlib import Path

import pytest

from tools import house
from tools.environment import SetUpFailed, environment_of

HERE = environment_of(Path("project"))


@pytest.fixture
def started(monkeypatch):
    """The commands that would have been run, in order; none of them is."""
    commands: list[list[str]] = []

    def keep(command, **_more) -> int:
        commands.append([str(part) for part in command])
        return 7

    monkeypatch.setattr(house, "ready", lambda: HERE)
    monkeypatch.setattr(house, "replaced_by", keep)
    monkeypatch.setattr(house.subprocess, "call", keep)
    monkeypatch.setattr(house.os, "chdir", lambda folder: None)
    return commands


@pytest.mark.parametrize("words", [[], ["help"], ["-h"], ["--help"]])
def test_help_names_every_word(words, capsys) -> None:
    assert house.main(words) == (0 if words else 2)
    said = capsys.readouterr().out
    assert all(f"    {word} " in said for word in house.WORDS)


def test_a_slip_of_the_finger_is_told_the_nearest_word(capsys) -> None:
    assert house.main(["tset"]) == 2
    assert capsys.readouterr().err.endswith("Did you mean:  python3 start.py test\n")


def test_a_word_of_thruline_is_told_where_it_goes(capsys) -> None:
    assert house.main(["prove", "a.rig.toml"]) == 2
    assert "python3 start.py run prove" in capsys.readouterr().err


def test_demo_and_run_call_thruline(started) -> None:
    assert house.main(["demo", "--json"]) == 7
    assert house.main(["run", "prove", "my rig.toml"]) == 7
    thruline = str(HERE.thruline)
    assert started == [[thruline, "demo", "--json"], [thruline, "prove", "my rig.toml"]]


def test_test_runs_side_by_side_and_passes_words_on(started) -> None:
    assert house.main(["test", "tests/rig", "-x"]) == 7
    assert started[0][1:4] == ["-m", "pytest", "-n"]
    assert started[0][-2:] == ["tests/rig", "-x"]


def test_check_passes_names_on(started) -> None:
    assert house.main(["check", "types"]) == 7
    assert started == [[str(HERE.python), "-m", "tools.check", "types"]]


def test_no_environment_is_exit_code_3(monkeypatch, capsys) -> None:
    def fail() -> None:
        raise SetUpFailed("no network")

    monkeypatch.setattr(house, "ready", fail)
    assert house.main(["demo"]) == 3
    assert capsys.readouterr().err == "no network\n"


def test_stopped_while_setting_up(monkeypatch, capsys) -> None:
    def stop() -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(house, "ready", stop)
    assert house.main(["demo"]) == 130
    assert "Stopped" in capsys.readouterr().err


@pytest.fixture
def two_benchmarks(monkeypatch, tmp_path):
    folder = tmp_path / "benchmarks"
    folder.mkdir()
    for name in ("bench_proof.py", "decode.py", "notes.txt"):
        (folder / name).write_text('x = 1\nif __name__ == "__main__":\n    ...\n', encoding="utf-8")
    (folder / "shared.py").touch()
    monkeypatch.setattr(house, "ROOT", tmp_path)


def test_benchmarks_are_found_by_name(two_benchmarks, tmp_path) -> None:
    assert list(house.benchmarks(tmp_path / "benchmarks")) == ["proof", "decode"]


def test_all_benchmarks_run_with_the_options(two_benchmarks, started) -> None:
    assert house.main(["bench", "--quick"]) == 7
    assert [Path(command[1]).name for command in started] == ["bench_proof.py", "decode.py"]
    assert all(command[2:] == ["--quick"] for command in started)


def test_one_benchmark_runs_alone(two_benchmarks, started) -> None:
    house.main(["bench", "proof", "--quick"])
    assert [Path(command[1]).name for command in started] == ["bench_proof.py"]


def test_an_unknown_benchmark_is_told_the_known_ones(two_benchmarks, started, capsys) -> None:
    assert house.main(["bench", "poof"]) == 2
    assert "proof, decode" in capsys.readouterr().err
