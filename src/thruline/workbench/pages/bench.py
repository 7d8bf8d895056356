"""Bench: what is really on the wire?"""

from collections.abc import Mapping

from thruline.app.bench_view import bench_view
from thruline.app.desk import Desk, Keeping
from thruline.app.frame import Json
from thruline.workbench.content import Content


def data(desk: Desk, _keeping: Keeping, _asked: Mapping[str, str]) -> Json:
    """What can be sent and where one can listen; the bench itself has addresses of its own."""
    return bench_view(desk.state.case)


CONTENT = Content(data=data)
