"""Made-up ports to send to."""

from thruline.bench.face import PortGone


class Kept:
    """A port that is always there and keeps what it is sent."""

    longest = None

    def __init__(self, name="kept"):
        self.name, self.sent = name, []

    def send(self, data):
        self.sent.append(data)

    def look(self):
        pass

    def land(self):
        pass

    def close(self):
        pass


class Mute(Kept):
    """A port that says nothing when it is pulled out: what it is sent then is lost.

    What was handed over in the last `under_way_us` is lost as well.
    """

    def __init__(self, clock, name="mute", *, under_way_us=3_000):
        super().__init__(name)
        self.clock, self.there, self.under_way_us, self._handed = clock, True, under_way_us, []

    @property
    def got(self):
        """What has arrived so far."""
        now = self.clock.now_us()
        end = now - self.under_way_us if self.there else self.went_us - self.under_way_us
        return [data for at_us, data in self._handed if at_us <= end]

    def pull(self):
        self.there, self.went_us = False, self.clock.now_us()

    def send(self, data):
        if self.there:
            self._handed.append((self.clock.now_us(), data))

    def look(self):
        if not self.there:
            raise PortGone(f'port "{self.name}" is gone')

    def land(self):
        self.clock.wait_until(self.clock.now_us() + self.under_way_us)
        self.look()
