"""The set in the order of the night: what the Stage page needs, and nothing else."""

from thruline.app.frame import Json
from thruline.app.load import Opened


def stage_json(opened: Opened) -> Json:
    """Every song with its presets; a rig without songs is one list of all its presets.

    A preset that a song calls and that is not there is told as such: on stage it must be seen.
    """
    rig = opened.rig
    about = {one.number: one.about for one in reversed(opened.document.shape.preset)}
    songs = [(one.name, one.tempo, one.presets) for one in rig.songs]
    if not songs and rig.presets:
        songs = [("All presets", None, tuple(one.number for one in rig.presets))]

    def step(number: int) -> Json:
        preset = rig.preset(number)
        return {
            "number": number,
            "name": preset.name if preset else "is not there",
            "about": about.get(number, ""),
            "missing": preset is None,
        }

    return {
        "rig": rig.name,
        "songs": [
            {"name": name, "tempo": tempo, "steps": [step(number) for number in numbers]}
            for name, tempo, numbers in songs
        ],
    }
