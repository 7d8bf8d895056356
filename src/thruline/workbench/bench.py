"""The bench of one rig: its open ports, and all that is done with them, for whoever looks at it.

What comes in is taken by a thread of its own, what is sent leaves from another; everything else is
done by whoever asks, one at a time.
"""

import threading
import time
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress

from thruline.app.audit import plan_for
from thruline.app.frame import Json
from thruline.app.gather import refuse_without_midi
from thruline.app.gathering import Identifying, Saving
from thruline.app.listen import choice_of
from thruline.app.listening import Listening, went_wrong
from thruline.app.parted import look_at_ways, overs_of
from thruline.app.pressing import Pressing
from thruline.app.send import Step, channels_in_use, look_at_outputs
from thruline.app.sending import Sending
from thruline.app.sweeping import Sweeping
from thruline.audit.capture import NoteKind
from thruline.base.errors import CannotUse, ThrulineError, WorldFailed
from thruline.bench.backup import lasts_us, look_at_port, paced, read_backup, restore
from thruline.bench.face import WallClock
from thruline.bench.guard import Guarded
from thruline.bench.identity import question
from thruline.bench.listen import Session
from thruline.bench.plugged import HeldInput, HeldOutput
from thruline.bench.port_list import PortList
from thruline.bench.send import Planned
from thruline.bench.several import Way
from thruline.bench.telling import Choice, Teller
from thruline.bench_wiring import BenchKeeping
from thruline.proof.case import Case
from thruline.wiring import time_of_day

REST_SECONDS = 0.004
WATCH_US = 300_000
"""How often it is looked whether ports are there to which nothing is being sent."""
ENDING_SECONDS = 1.0
"""How long a sending that was stopped may take to end."""


class Bench:
    """Ports, and what is being done with them. Every method may be called from any thread."""

    def __init__(self, name: str, ports: PortList, clock: WallClock, keeping: BenchKeeping) -> None:
        self.name = name
        self.keeping = keeping
        self._ports, self._clock = ports, clock
        self._lock = threading.RLock()
        self._inputs: Sequence[HeldInput] = ()
        self._held: Sequence[HeldOutput] = ()
        self._listening: Listening | None = None
        self._opened: object | None = None
        self._pump: threading.Thread | None = None
        self._player: threading.Thread | None = None
        self._sending = Sending(clock)
        self._sweeping = Sweeping(self._sending)
        self._pressing: Pressing | None = None
        self._identifying: Identifying | None = None
        self._saving: Saving | None = None
        self._log = ""
        self._says = ""
        self._watched_us = clock.now_us()
        self.may_telephones_send = False
        self.turn = 0

    # --- ports ---

    def open(
        self, case: Case, inputs: Sequence[tuple[str, str]], outputs: Sequence[tuple[str, str]]
    ) -> None:
        """Open ports: `inputs` with what each line is called, `outputs` to send to.

        With each of these is the output of the controller that it stands for; empty for all.
        Raises CannotUse when another rig has one, or the controller does not choose such an output;
        WorldFailed when one cannot be opened.
        """
        named = [over for _, over in outputs if over]
        if named:
            look_at_outputs(case, named)
        with self._lock:
            self.close()
            self._ports.claim([port for port, _ in outputs], rig=self.name)
            try:
                self._held = self._ports.open_outputs([port for port, _ in outputs])
                self._inputs = self._ports.open_inputs([port for port, _ in inputs])
            except WorldFailed:
                self.close()
                raise
            self._sending.outputs = [
                Way(Guarded(held), over or None)
                for held, (_, over) in zip(self._held, outputs, strict=True)
            ]
            if inputs:
                self._listen(case, [line for _, line in inputs])
            self._opened = object()
            self._pump = threading.Thread(target=self._take_turns, args=[self._opened], daemon=True)
            self._pump.start()

    def _listen(self, case: Case, lines: Sequence[str]) -> None:
        session = Session(self._inputs, self._clock, lines=lines, began=time_of_day())
        try:
            self._log, log = self.keeping.begin(time_of_day().replace(":", "."))
            session.keep(log)
            self._says = ""
        except ThrulineError as trouble:
            self._says = f"this is not logged: {trouble.says}"
        self._listening = Listening(session, case)

    def _take_turns(self, opened: object) -> None:
        """Take in what comes and look at the ports, until these are let go of."""
        while self._opened is opened:
            came = False
            with self._lock:
                try:
                    came = self._opened is opened and self._take_turn()
                except Exception as trouble:  # noqa: BLE001 - who waits here would wait for ever
                    self._stumble(trouble)
            if not came:
                time.sleep(REST_SECONDS)

    def _take_turn(self) -> bool:
        came = self._listening is not None and self._turn(self._listening)
        if self._clock.now_us() > self._watched_us + WATCH_US:
            self._watch()
        return came

    def _stumble(self, trouble: Exception) -> None:
        """Say what went wrong, once, and keep no memory of which something may be lost."""
        says = went_wrong(trouble)
        if self._saving is not None and not self._saving.is_over:
            self._saving.fail(says)
            self.turn += 1
        if says != self._says:
            self._says, self.turn = says, self.turn + 1

    def _watch(self) -> None:
        """Look whether the ports to send to are there, and tell who uses them."""
        self._watched_us = self._clock.now_us()
        if self._sending.watch():
            self.turn += 1
            if self._sending.gone:
                self._sweeping.see_gone(self._sending.gone.values())

    def _turn(self, listening: Listening) -> bool:
        entries, events = listening.turn()
        now_us = listening.session.passed_us
        self._sweeping.hear(events)
        if self._identifying is not None and not self._identifying.is_over:
            self._identifying.hear(entries, now_us)
            self.turn += self._identifying.is_over
        if self._saving is not None and not self._saving.is_over:
            self._saving.hear(entries, now_us, self.keeping.backups)
            self.turn += self._saving.is_over
        if self._pressing is not None and self._pressing.hear(entries, now_us):
            self._ask()
        if events:
            self.turn += 1
        return bool(entries)

    def close(self) -> None:
        """Let go of all ports."""
        self._stop()
        with self._lock:
            listening, self._listening, self._opened = self._listening, None, None
            if listening is not None:
                with suppress(WorldFailed):  # what could not be written was told while listening
                    listening.close()
            for one in self._held:
                one.close()
            self._inputs, self._held, self._sending.outputs = (), (), ()
            self._pressing = self._identifying = self._saving = None
            self._sweeping.forget()
            self._sending.is_sound_down = False
            self._ports.release(self.name)
            self.turn += 1

    def use(self, case: Case) -> None:
        """The rig was changed: what comes from here on is told in its words."""
        listening = self._listening
        if listening is not None:
            teller = Teller(case, listening.lines)  # takes a while, and Panic must not wait for it
            with self._lock:
                listening.use(teller)

    # --- sending ---

    def sound_is_down(self, *, is_it: bool) -> None:
        """Somebody says that the sound is turned down, or not any more."""
        self._sending.is_sound_down = is_it
        self.turn += 1

    def overs(self, case: Case) -> tuple[str, ...]:
        """The outputs that the open ports stand for together; none when for all of them.

        Raises CannotUse where a port would carry what it must not.
        """
        look_at_ways(case, self._sending.outputs)
        return overs_of(self._sending.outputs)

    def again(self) -> None:
        """Send again what ports that had gone were not sent. Raises CannotUse when nothing is."""
        with self._lock:
            self._start(self._sending.again())

    def send(self, title: str, steps: Iterable[Step]) -> None:
        """Send steps, with a question after each. Raises CannotUse when nothing may be sent."""
        with self._lock:
            self._start(self._sending.begin(title, steps))

    def answer(self, *, is_so: bool) -> None:
        """What the person saw on the unit. Raises CannotUse when nothing was asked."""
        with self._lock:
            self._start(self._sending.answer(is_so=is_so))

    def _start(self, what: Callable[[], None] | None) -> None:
        self.turn += 1
        if what is not None:

            def play() -> None:
                what()
                self.turn += 1

            self._player = threading.Thread(target=play, daemon=True)
            self._player.start()

    def _stop(self) -> None:
        self._sending.stop()
        if self._player is not None and self._player is not threading.current_thread():
            self._player.join(ENDING_SECONDS)

    def panic(self, case: Case) -> str:
        """Stop, and all sound and notes off; in words. Raises WorldFailed when no port takes it."""
        self._stop()
        with self._lock:
            self._sweeping.let_go()
            self.turn += 1
            return self._sending.silence(channels_in_use(case))

    def sweep(self, deed: Callable[[Sweeping], None]) -> None:
        """Something done with a sweep or its pedal; raises what that raises."""
        with self._lock:
            deed(self._sweeping)
            self.turn += 1

    # --- audit ---

    def audit(self, case: Case) -> None:
        """Begin to ask for one press after the other. Raises CannotUse when nothing is heard."""
        with self._lock:
            lines = self._open_lines().lines
            self._pressing = Pressing(plan_for(case, lines), case.rig, lines=lines)
            self._ask()

    def _ask(self) -> None:
        """Write down what is asked for now."""
        pressing, listening = self._pressing, self._listening
        if pressing is not None and listening is not None and pressing.note is not None:
            pressing.write(listening.note(*pressing.note))
        self.turn += 1

    def skip(self) -> None:
        """Pass over what is asked for. Raises CannotUse when nothing is."""
        with self._lock:
            if self._pressing is None:
                raise CannotUse("no audit is under way")
            title = self._pressing.skip()
            self._pressing.write(self._open_lines().note(NoteKind.SKIP, title))
            self._ask()

    def end_audit(self) -> None:
        """No more presses."""
        with self._lock:
            self._pressing = None
            self.turn += 1

    @property
    def pressing(self) -> Pressing | None:
        """The audit that is under way."""
        return self._pressing

    # --- who is there, and memories ---

    def identify(self, case: Case) -> None:
        """Ask who is there. Raises CannotUse without ports both ways, PortGone when one goes."""
        with self._lock:
            listening = self._open_lines()
            if not self._sending.outputs:
                raise CannotUse("choose a port to ask on first, above under Ports")
            self._sending.refuse_if_busy()
            self._identifying = Identifying(case.rig, listening.session.passed_us)
            self.turn += 1
            self._sending.send_now([Planned(0, question())], lands=True)

    def save(self, case: Case, unit: str, name: str) -> None:
        """Wait for a unit's dump, and keep it.

        Raises CannotUse when nothing is listened to, or it could not be kept under that name.
        """
        with self._lock:
            now_us, date = self._open_lines().session.passed_us, time_of_day()
            found = case.rig.units.get(unit)
            if found is None:
                raise CannotUse(f'there is no unit "{unit}" in this rig')
            refuse_without_midi(found)
            name = name.strip() or date.replace(":", ".")
            self.keeping.backups.look_at_name(unit, name)  # the dump would come for nothing
            self._saving = Saving(found, name=name, date=date, now_us=now_us, rig=case.rig.name)
            self.turn += 1

    def stop_saving(self) -> None:
        """Wait for no dump any more. Raises CannotUse when none is waited for."""
        with self._lock:
            if self._saving is None or self._saving.is_over:
                raise CannotUse("no dump is waited for")
            self._saving.stop()
            self.turn += 1

    def restore(self, case: Case, unit: str, *, name: str, port: str, confirmed: str) -> None:
        """Send a backup into its unit, if it was confirmed by the unit's id.

        Raises CannotUse when it is not, does not verify, or is of another model.
        """
        with self._lock:
            found = case.rig.units.get(unit)
            backup = read_backup(*self.keeping.backups.fetch(unit, name))
            if found is None or backup.chart != found.chart.id:
                raise CannotUse(f'"{name}" was kept of another model than {unit} is now; not sent')
            backup.look_at_rig(case.rig.name)
            held = next((one for one in self._held if one.name == port), None)
            if held is None:
                raise CannotUse("choose the port that the unit is reached by, above under Ports")
            look_at_port(backup, held)
            self._sending.refuse_if_busy()
            if confirmed.strip() != unit:
                raise CannotUse(f'not sent: type the id of the unit, "{unit}", to confirm it')
            takes_us = lasts_us(paced(backup.messages))

            def play(goes_on: Callable[[], bool]) -> int:
                return restore(
                    backup, held, self._clock, confirmed=lambda: confirmed, goes_on=goes_on
                )

            title = f'"{name}" into {found.name}'
            self._start(self._sending.begin_other(title, play, count=len(backup.messages)))
            self._says = f"{title} ({backup.rig_says}): takes {takes_us / 1_000_000:.1f} s"

    def _open_lines(self) -> Listening:
        if self._listening is None:
            raise CannotUse("choose a port to listen to first, above under Ports")
        return self._listening

    # --- what is seen ---

    def told(self, case: Case, after: int, *, only: list[str], hide: list[str]) -> Json:
        """What came, in words. Raises CannotUse for a filter that nothing here is called."""
        with self._lock:
            if self._listening is None:
                return {"count": 0, "first": 1, "rows": []}
            lines = self._listening.lines
            choice = choice_of(case, lines, only=only, hide=hide) if only or hide else Choice()
            return self._listening.rows(after, choice)

    def as_json(self) -> Json:
        """Everything but what came, for a page."""
        with self._lock:
            lines = self._listening.lines if self._listening else ()
            return {
                "turn": self.turn,
                "says": self._says,
                "inputs": [{"name": name} for name in self._ports.inputs],
                "outputs": [
                    {"name": name, "holder": self._ports.holder(name)}
                    for name in self._ports.outputs
                ],
                "troubles": list(self._ports.troubles),
                "news": [one.says for one in reversed(self._ports.news)],
                "open": {
                    "inputs": [
                        {"port": one.name, "line": line, "there": one.is_there}
                        for one, line in zip(self._inputs, lines, strict=False)
                    ],
                    "outputs": [
                        {"port": held.name, "there": held.is_there, "over": way.over}
                        for held, way in zip(self._held, self._sending.outputs, strict=True)
                    ],
                },
                "log": self._log if self._listening else "",
                "sending": self._sending.as_json(),
                "sweep": self._sweeping.as_json(),
                "audit": self._pressing.as_json() if self._pressing else None,
                "identity": self._identifying.as_json() if self._identifying else None,
                "saving": self._saving.as_json() if self._saving else None,
                "may_telephones_send": self.may_telephones_send,
            }
