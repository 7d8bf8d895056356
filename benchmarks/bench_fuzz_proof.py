"""Odd rigs proved, mended, traced and edited for as long as one likes: nothing may ever break.

    python benchmarks/bench_fuzz_proof.py [--seconds N] [--seed N] [--quick]

Every rig has a seed, and the seed of one that breaks is printed with what it broke. Walks of random
edits go on from proof to proof, each of which is compared with a fresh one.
"""

import argparse
import random
import sys
import time
import traceback
from collections import Counter

from odd_rigs import edited, odd_document
from proof_checks import check_edit, check_mends, check_proof, check_traces, opened

from thruline.app.mend import state_of
from thruline.cli.memory import settle_memory
from thruline.document.write import document_text

EDITS = 6
MENDS = 10


def one_rig(seed: int, counts: Counter[str]) -> None:
    """A rig proved, and by its seed some mends tried, its presets followed, or the rig edited."""
    rng = random.Random(seed)
    document = odd_document(rng)
    state = state_of(opened(document_text(document)))
    check_proof(state)
    counts["rigs"] += 1
    counts["findings"] += len(state.proof.findings)
    if seed % 4 == 0:
        counts["mends"] += check_mends(state, most=MENDS)
    if seed % 4 == 2:
        counts["traces"] += check_traces(state)
    if seed % 4 == 1:
        for _ in range(EDITS):
            document = edited(document, rng)
            state = check_edit(state, document_text(document))
            counts["edits"] += 1


def main() -> int:
    """Run for a while; 1 when something broke."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=60)
    parser.add_argument("--seed", type=int, default=0, help="the seed of the first rig")
    parser.add_argument("--quick", action="store_true", help="only to see that it runs")
    asked = parser.parse_args()
    settle_memory()
    until = time.monotonic() + (1 if asked.quick else asked.seconds)
    seed, counts, broken = asked.seed, Counter[str](), 0
    while time.monotonic() < until:
        try:
            one_rig(seed, counts)
        except Exception:  # noqa: BLE001 - whatever breaks is what is looked for
            broken += 1
            print(f"seed {seed}:\n{traceback.format_exc(limit=-3)}")
        seed += 1
    told = ", ".join(f"{number:,} {what}" for what, number in counts.items())
    print(f"seeds {asked.seed} to {seed - 1}: {told}; {broken} broken")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
