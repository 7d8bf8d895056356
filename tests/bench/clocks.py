"""A clock that stands still until somebody waits for it."""


class StepClock:
    """Time in microseconds, moved by waiting only."""

    def __init__(self, now_us=0):
        self.now = now_us

    def now_us(self):
        return self.now

    def wait_until(self, moment_us):
        self.now = max(self.now, moment_us)
