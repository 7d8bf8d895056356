"""A controller that was programmed with mistakes plays through a real MIDI server into `audit`.

It is a stand-in that presses what the command asks for; all else is as at a bench.
"""

import json
import random
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

import thruline
from tests.wires import kinds
from thruline.audit.build import build
from thruline.audit.capture import Caught, Note, NoteKind, caught
from thruline.audit.fault import Fault
from thruline.audit.listed import every_fault
from thruline.audit.meant import NO_KEY, Meant, default_taps, meant_by
from thruline.bench.pretend import pretend_capture
from thruline.proof.case import Case
from thruline.wiring import open_file

RIG = Path(thruline.__file__).parent / "samples" / "first-board" / "first-board.rig.toml"
CASE = Case(open_file(str(RIG)).rig)
MEANT = meant_by(CASE, default_taps(CASE))


def effect(meant: Meant, *faults: Fault) -> list[int]:
    """What would be heard with these mistakes."""
    keys = build(meant, faults, np.ones(len(meant.steps), np.bool_))
    return sorted(keys[keys != NO_KEY].tolist())


def seeded(seed: int) -> Fault:
    """A mistake that can be heard."""
    heard = [one for one in every_fault(MEANT) if effect(MEANT, one) != effect(MEANT)]
    return random.Random(seed).choice(heard)


def played(*faults: Fault) -> dict[str, list[tuple[int, bytes]]]:
    """By what is asked for: the messages of each step, and when after the press."""
    steps: dict[str, list[tuple[int, bytes]]] = {}
    title, begin_us = "", 0
    for one in caught(pretend_capture(MEANT, faults)):
        if isinstance(one, Note) and one.kind in (NoteKind.PRESS, NoteKind.SWEEP):
            named = {str(step.preset): step.title for step in MEANT.steps if step.sweep is None}
            named |= {step.sweep: step.title for step in MEANT.steps if step.sweep is not None}
            title, begin_us = named[one.text], one.at_us
            steps[title] = []
        elif isinstance(one, Caught):
            steps[title].append((one.at_us - begin_us, one.raw))
    return steps


def press(kind: kinds.Kind, messages: list[tuple[int, bytes]]) -> None:
    """Do what is asked for, as a controller would."""
    begin = time.monotonic()
    for at_us, data in messages:
        time.sleep(max(0.0, begin + at_us / 1e6 - time.monotonic()))
        kind.says(data)


@kinds.IN_REAL_TIME
@pytest.mark.parametrize("seed", [None, 1, 2, 3])
def test_its_mistake_is_heard_over_a_real_server(tmp_path, seed):
    faults = () if seed is None else (seeded(seed),)
    steps = played(*faults)
    with kinds.jack(tmp_path) as kind:
        words = ["audit", str(RIG), "--port", "speaks", "--patience", "3", "--json"]
        command = [sys.executable, "-m", "thruline", *words]
        pipe = subprocess.PIPE
        with subprocess.Popen(command, stdout=pipe, stderr=pipe, text=True, cwd=tmp_path) as audit:
            for row in audit.stderr:
                asked, _, title = row.strip().partition("now: ")[2].partition(" ")
                if asked in ("press", "move"):
                    press(kind, steps[title])
            told = json.loads(audit.stdout.read())
    assert audit.returncode == (1 if faults else 0)
    assert told["clean"] is (not faults)
    assert all(one["pressed"] for one in told["presses"] if steps[one["title"]])
    best = told["causes"][0]
    said = {one["family"] for one in best["faults"]}
    likely = [one for one in every_fault(MEANT) if effect(MEANT, one) == effect(MEANT, *faults)]
    assert said <= {one.family.value for one in likely}
    assert bool(said) is bool(faults)
