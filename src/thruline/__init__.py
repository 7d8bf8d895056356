"""Plan, prove, program and repair a MIDI-controlled pedalboard.

    >>> import thruline
    >>> board = thruline.load("board.rig.toml")
    >>> for finding in thruline.prove(board).findings[:1]:
    ...     print(finding.says)
    the trs-3.5 plug of the cable to looper does not go into Jonagold Looper midi-in, which is din5

Nothing is loaded before it is asked for, so importing this costs next to nothing. What a type
checker sees of it stands in `__init__.pyi`.
"""

import importlib

__version__ = "0.1.0"

__all__ = [
    "CableSet",
    "CannotUse",
    "ChannelPlan",
    "Chart",
    "Evidence",
    "Finding",
    "Mend",
    "Opened",
    "OutletPlan",
    "Proof",
    "Rig",
    "Search",
    "Severity",
    "Standing",
    "Trace",
    "Untold",
    "Weighed",
    "WorkOrder",
    "WorldFailed",
    "__version__",
    "apply",
    "chart",
    "load",
    "locate",
    "mends",
    "plan_cables",
    "plan_channels",
    "plan_power",
    "prove",
    "save",
    "trace",
    "work_order",
]

_PLACES = {
    "CableSet": "app.plan_cables",
    "CannotUse": "base.errors",
    "ChannelPlan": "app.plan_channels",
    "Chart": "rig.chart",
    "Evidence": "proof.evidence",
    "Finding": "proof.finding",
    "Mend": "proof.finding",
    "Opened": "app.load",
    "OutletPlan": "app.plan_power",
    "Proof": "proof.engine",
    "Rig": "rig.whole",
    "Search": "find.search",
    "Severity": "proof.finding",
    "Standing": "find.standing",
    "Trace": "app.trace",
    "Untold": "proof.finding",
    "Weighed": "mend.weigh",
    "WorkOrder": "app.compare",
    "WorldFailed": "base.errors",
    "apply": "questions",
    "chart": "questions",
    "load": "questions",
    "locate": "questions",
    "mends": "questions",
    "plan_cables": "questions",
    "plan_channels": "questions",
    "plan_power": "questions",
    "prove": "questions",
    "save": "questions",
    "trace": "questions",
    "work_order": "questions",
}
"""Where each public name is kept; the module is loaded when the name is first asked for."""


def __getattr__(name: str) -> object:
    """A public name, on first use (PEP 562)."""
    if name not in _PLACES:
        raise AttributeError(f"thruline has no {name}; it has {', '.join(__all__)}")
    found: object = getattr(importlib.import_module(f"thruline.{_PLACES[name]}"), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return __all__
