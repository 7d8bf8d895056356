"""Which output made the signal on a link, and whether it leaves out repeated status bytes."""

from thruline.path.carriers import Carrier
from thruline.path.links import Link
from thruline.path.network import Network
from thruline.rig.chart import Way


def maker_of(network: Network, link: Link) -> Carrier | None:
    """The output that made the signal on a link, behind all electrical copies."""
    maker = network.outputs.get(link.start)
    while maker is not None and maker.way is Way.THRU_WIRE:
        feed = next((one for one in maker.feeds if not one.cut), None)
        maker = network.outputs.get(feed.source) if feed else None
    return maker


def leaves_status_out(carrier: Carrier) -> bool | None:
    """Whether an output uses running status; None where no chart says.

    Where the output does not say it, the controller says it of itself.
    """
    abilities = carrier.unit.chart.abilities
    omits = carrier.output.running_status
    return abilities.running_status if omits is None and abilities is not None else omits
