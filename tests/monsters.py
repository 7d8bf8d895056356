"""A rig as large as the document allows, its names as long: what papers must bear."""

from thruline.proof.example_boards import a_cable, a_preset, a_song, a_sweep, a_unit

MOST = 80
"""Letters of a name."""
WIDE = "W" * MOST
"""One word, of the widest letters."""


def worded(start: str) -> str:
    """A longest name of several words."""
    return (f"{start} " + "of the nightingale orchestrations " * 4)[:MOST].strip()


def monster(*, units: int = 15, presets: int = 128, songs: int = 30) -> str:
    """The text of a rig of so many units beside its controller, in one line over MIDI."""
    ids = [f"u{number}" for number in range(units)]
    names = [WIDE if place % 5 == 4 else worded(f"{place} Delay") for place in range(units)]
    head = (
        f'format = 1\n[rig]\nname = "{WIDE}"\ncontroller = "feet"\n'
        f'about = "{"Long words. " * 20}"\nboard = {{ width = 1200, depth = 500 }}\n'
    )
    pieces = [a_unit("feet", "braeburn-six", f'name = "{worded("Feet")}"')]
    for place, (unit, name) in enumerate(zip(ids, names, strict=True)):
        where = f"place = {{ x = {10 + place % 8 * 145}, y = {10 + place // 8 * 150} }}"
        pieces.append(
            a_unit(unit, "bramley-delay", f"channel = {place + 1}", f'name = "{name}"', where)
        )
    ways = ["feet.midi-out-1", *(f"{unit}.midi-thru" for unit in ids)]
    pieces += [a_cable(ways[place], f"{unit}.midi-in") for place, unit in enumerate(ids)]
    for number in range(1, presets + 1):
        goals = [
            f'{unit} = {{ program = "{number % 60 + 1}A", mix = {number % 100} }}'
            for unit in ids[number % 3 :: 3]
        ]
        name = WIDE if number % 10 == 0 else worded(f"{number}")
        pieces.append(a_preset(number, name, *goals))
    moves = [f'unit = "{unit}", control = "mix", heel = 0, toe = {20 + at}'
             for at, unit in enumerate(ids)]  # fmt: skip
    pieces.append(a_sweep(worded("Sweep"), *moves))
    for number in range(songs):
        those = [(number * 4 + step) % presets + 1 for step in range(12)]
        pieces.append(a_song(WIDE if number % 7 == 6 else worded(f"Song {number}"), str(those)))
    return head + "\n".join(pieces)
