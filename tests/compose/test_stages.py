"""A job looked at from its end."""

from hypothesis import given

from tests.compose.wires import few_jobs
from thruline.compose.jobs import Job, Means
from thruline.compose.stages import stages_of
from thruline.compose.windows import open_windows
from thruline.compose.wire import wire_of


@given(some=few_jobs)
def test_every_job_has_stages(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    for job in range(len(some)):
        assert stages_of(open_windows(wire), job)
