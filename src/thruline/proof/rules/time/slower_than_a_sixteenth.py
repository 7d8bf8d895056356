"""A change within a song that takes longer than a sixteenth note at the song's tempo."""

from collections.abc import Iterator

from thruline.base.measures import shown_ms
from thruline.proof.case import Case
from thruline.proof.evidence import times
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_song, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.slowness import slowest_units
from thruline.rig.song import Song


def _look(case: Case) -> Iterator[Result]:
    tightest: dict[int, Song] = {}
    for song in case.rig.songs:
        # The first preset of a song is pressed before it begins.
        for number in song.presets[1:] if song.tempo else ():
            before = tightest.get(number)
            if before is None or (before.tempo or 0) < (song.tempo or 0):
                tightest[number] = song
    for number, song in tightest.items():
        preset = case.rig.preset(number)
        if preset is None or song.tempo is None:
            continue
        right, sixteenth = case.run(preset).right_us, sixteenth_us(song.tempo)
        if right > sixteenth:
            yield RULE.finding(
                f"preset {preset.title} is right {shown_ms(right)} after the press; a sixteenth of "
                f'"{song.name}" lasts {shown_ms(sixteenth)}',
                preset.address,
                song.address,
                evidence=[times(*slowest_units(case, preset), ("tempo", f"{song.tempo} a minute"))],
            )


def sixteenth_us(tempo: int) -> int:
    """How long a sixteenth note lasts: a quarter of 60 s / tempo."""
    return 60_000_000 // tempo // 4


def _song(tempo: int) -> str:
    return a_song("Act one", "[1, 2]", f"tempo = {tempo}")


_PRESETS = (
    a_preset(1, "Overture", 'delay = { program = "1A", mix = 30 }'),
    a_preset(2, "Balcony", 'delay = { program = "2A", mix = 64 }'),
)

RULE = Rule(
    id=rule_id(__name__),
    title="A change slower than a sixteenth",
    severity=Severity.RISK,
    why=(
        "A player presses on the beat, or a sixteenth before it. If the change takes longer than "
        "that, the first note still has something of the preset before."
    ),
    failing=board(DELAY, TO_DELAY, *_PRESETS, _song(380)),
    passing=board(DELAY, TO_DELAY, *_PRESETS, _song(120)),
    look_whole=_look,
)
