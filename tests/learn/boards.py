"""Captures of the demonstration rig, pressed and travelled, to be learned again."""

import random
from functools import cache

from thruline.audit.capture import Capture
from thruline.audit.meant import Meant, meant_by
from thruline.bench.pretend import NO_TROUBLE, Trouble, pretend_capture
from thruline.proof.case import Case
from thruline.wiring import demo_texts, open_sample

DAMAGED = Trouble(garbled=0.005, dropped=0.005)


@cache
def meant() -> Meant:
    case = Case(open_sample(demo_texts()[1], "demonstration").rig)
    return meant_by(case, ["feet.midi-out-1"])


def heard(times: int = 3, trouble: Trouble = NO_TROUBLE, seed: int = 1) -> Capture:
    """Every preset so many times in an order by chance, and each pedal moved now and then."""
    rng = random.Random(seed)
    plan = meant()
    steps = [step for step in range(plan.presets) for _ in range(times)]
    rng.shuffle(steps)
    for number, sweep in enumerate(plan.case.rig.sweeps):
        places = [at for at, step in enumerate(steps) if plan.steps[step].preset in sweep.presets]
        for place in sorted(rng.sample(places, min(times, len(places))), reverse=True):
            steps.insert(place + 1, plan.presets + number)
    return pretend_capture(plan, pressed=steps, trouble=trouble, chance=rng.random)


def sent_by(number: int) -> list[bytes]:
    """What a preset really sends."""
    case = meant().case
    preset = case.rig.preset(number)
    return [item.data for item in case.run(preset).sending.items]
