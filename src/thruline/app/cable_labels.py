"""What stands on the labels of a rig's cables."""

from thruline.app.plan_cables import CableSet, place_words
from thruline.papers.labels import Label, Labels


def cable_labels(found: CableSet) -> Labels:
    """Two labels a cable: each says where its own end goes, and where the other one is."""
    labels = []
    for one in found.cables:
        ends = (one.cable.start, one.cable.stop)
        for jack, other, plug in zip(ends, reversed(ends), one.ends, strict=True):
            labels.append(
                Label(
                    number=one.number,
                    kind=one.kind.name,
                    here=place_words(found, jack),
                    there=place_words(found, other),
                    plug=plug,
                    length=one.length,
                    code=f"{one.number} {jack} < {other}, {found.opened.rig.name}",
                )
            )
    return Labels(rig=found.opened.rig.name, labels=tuple(labels))
