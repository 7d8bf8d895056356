from thruline.app.load import Opened as Opened
from thruline.app.trace import Trace as Trace
from thruline.base.errors import CannotUse as CannotUse
from thruline.base.errors import WorldFailed as WorldFailed
from thruline.mend.weigh import Weighed as Weighed
from thruline.proof.engine import Proof as Proof
from thruline.proof.evidence import Evidence as Evidence
from thruline.proof.finding import Finding as Finding
from thruline.proof.finding import Mend as Mend
from thruline.proof.finding import Severity as Severity
from thruline.proof.finding import Untold as Untold
from thruline.questions import apply as apply
from thruline.questions import chart as chart
from thruline.questions import load as load
from thruline.questions import mends as mends
from thruline.questions import prove as prove
from thruline.questions import save as save
from thruline.questions import trace as trace
from thruline.rig.chart import Chart as Chart
from thruline.rig.whole import Rig as Rig

__version__: str

__all__ = [
    "CannotUse",
    "Chart",
    "Evidence",
    "Finding",
    "Mend",
    "Opened",
    "Proof",
    "Rig",
    "Severity",
    "Trace",
    "Untold",
    "Weighed",
    "WorldFailed",
    "__version__",
    "apply",
    "chart",
    "load",
    "mends",
    "prove",
    "save",
    "trace",
]
