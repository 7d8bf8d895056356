from thruline.app.compare import WorkOrder as WorkOrder
from thruline.app.load import Opened as Opened
from thruline.app.plan_cables import CableSet as CableSet
from thruline.app.plan_channels import ChannelPlan as ChannelPlan
from thruline.app.plan_power import OutletPlan as OutletPlan
from thruline.app.trace import Trace as Trace
from thruline.base.errors import CannotUse as CannotUse
from thruline.base.errors import WorldFailed as WorldFailed
from thruline.find.search import Search as Search
from thruline.find.standing import Standing as Standing
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
from thruline.questions import locate as locate
from thruline.questions import mends as mends
from thruline.questions import plan_cables as plan_cables
from thruline.questions import plan_channels as plan_channels
from thruline.questions import plan_power as plan_power
from thruline.questions import prove as prove
from thruline.questions import save as save
from thruline.questions import trace as trace
from thruline.questions import work_order as work_order
from thruline.rig.chart import Chart as Chart
from thruline.rig.whole import Rig as Rig

__version__: str

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
