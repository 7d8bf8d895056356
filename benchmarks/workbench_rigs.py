"""Rigs for the benchmarks of the workbench, as texts."""

HEAD = 'format = 1\n[rig]\nname = "Large"\ncontroller = "feet"\n'
FEET = '[[unit]]\nid = "feet"\nchart = "braeburn-six"\n'


def large_rig(units: int, presets: int) -> str:
    """A line of delays behind a foot controller; every preset wants something of each."""
    rows = [HEAD, FEET]
    for n in range(1, units):
        rows.append(
            f'[[unit]]\nid = "d{n}"\nchart = "bramley-delay"\nchannel = {(n - 1) % 16 + 1}\n'
        )
        rows.append('[unit.settings]\nmidi-out = "thru"\n')
        before = "feet.midi-out-1" if n == 1 else f"d{n - 1}.midi-out"
        rows.append(f'[[cable]]\nfrom = "{before}"\nto = "d{n}.midi-in"\nends = "din5/din5"\n')
    for number in range(1, presets + 1):
        rows.append(f'[[preset]]\nnumber = {number}\nname = "Preset {number}"\n')
        rows += [
            f'd{n} = {{ program = "1A", mix = {(n + number) % 128} }}\n' for n in range(1, units)
        ]
    return "".join(rows)


def wide_rig(units: int, presets: int) -> str:
    """Units without cables, and presets that want nothing: a sheet of many cells."""
    rows = [f'[[unit]]\nid = "u{n}"\nchart = "bramley-delay"\n' for n in range(units)]
    rows += [f'[[preset]]\nnumber = {n}\nname = "P{n}"\n' for n in range(1, presets + 1)]
    return "".join([HEAD, FEET, *rows])
