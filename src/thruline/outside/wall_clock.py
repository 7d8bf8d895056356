"""Time as it passes, for what must happen at a moment."""

import time

SPIN_US = 300
"""The last stretch is waited out awake: systems wake a sleeper this much late, or later."""


class SystemClock:
    """Microseconds of a clock that never jumps."""

    def now_us(self) -> int:
        """The present."""
        return time.monotonic_ns() // 1000

    def wait_until(self, moment_us: int) -> None:
        """Come back at that moment, or at once when it is past."""
        left = moment_us - self.now_us()
        if left > SPIN_US:
            time.sleep((left - SPIN_US) / 1_000_000)
        while self.now_us() < moment_us:
            pass
