"""What each kind of check asks, the answers there are, what it costs where, how sure it is.

Seconds and sureness are guesses of the trade; a person at the telephone takes longer than a
technician at the bench, and on a stage there is no meter.
"""

from collections.abc import Mapping
from types import MappingProxyType

from thruline.find.trials import Habit, Trial
from thruline.find.worlds import Came, Seen

SEEN_WORDS: Mapping[str, str] = MappingProxyType(
    {
        Seen.RIGHT: "as it should be",
        Seen.NOTHING: "nothing happens",
        Seen.ONE_ABOVE: "one program too high",
        Seen.ONE_BELOW: "one program too low",
        Seen.ANOTHER: "another program",
        Seen.KNOBS_WRONG: "right program, but some value is not",
        Seen.KNOBS_ONLY: "program stays, only values change",
    }
)
_CAME: Mapping[str, str] = {
    Came.AS_PLANNED: "everything as planned",
    Came.NOTHING: "nothing comes",
    Came.LESS: "some of it is missing",
    Came.OTHER: "other messages than planned",
}
_SAME = {"good": "as planned", "other": "something else"}

METER = (
    "Isolate before rewiring and never open a mains supply; measure at the plug, with a meter that "
    "is rated for it. Local codes and licensed practice come first."
)
QUIET = "Start quiet, and protect your hearing."
_HABITS: Mapping[Trial, Habit] = {
    Trial.GLANCE: Habit(
        asks="Press {preset} and look {along}. Which units are not as they should be?",
        answers={},
        seconds=(3, 6, 4),
        sure=0.93,
    ),
    Trial.LOOK: Habit(
        asks="Press {preset} and look at {unit}.{wants}",
        answers=SEEN_WORDS,
        seconds=(4, 8, 5),
        sure=0.93,
    ),
    Trial.REPEAT: Habit(
        asks="Press another preset and {preset} in turn, five times. How often is {unit} right?",
        answers={"always": "always", "sometimes": "now and then", "never": "never"},
        seconds=(15, 25, 20),
        sure=0.95,
    ),
    Trial.LAMP: Habit(
        asks="Press {preset} and watch the MIDI lamp of {unit}.",
        answers={"blinks": "it blinks", "dark": "it stays dark"},
        seconds=(3, 6, 4),
        sure=0.97,
    ),
    Trial.STRAIGHT: Habit(
        asks="Plug the controller straight into {unit} with a good lead, press {preset}.{wants}",
        answers=SEEN_WORDS,
        seconds=(40, 70, 60),
        sure=0.93,
        caution=QUIET,
    ),
    Trial.SWAP: Habit(
        asks="Swap {cable} for a lead that is known to be good, press {preset}, look at {unit}.",
        answers=SEEN_WORDS,
        seconds=(34, 60, 45),
        sure=0.93,
    ),
    Trial.TESTER: Habit(
        asks="Test {cable} with a cable tester or a meter. It should be: {joins}.",
        answers={
            "good": "right",
            "open": "a wire is open",
            "crossed": "wires are swapped",
            "unsteady": "unsteady when moved",
        },
        seconds=(25, 60, None),
        sure=0.99,
    ),
    Trial.PLUG: Habit(
        asks="Look at both plugs of {cable}: from {start} to {stop}, pushed home?",
        answers={
            "good": "both as they should be",
            "out": "one is not in",
            "elsewhere": "one is in another socket",
            "mono": "a plug has two contacts only",
        },
        seconds=(6, 12, 8),
        sure=0.97,
    ),
    Trial.WIGGLE: Habit(
        asks="Wiggle both ends of {cable} while presets are pressed.",
        answers={"good": "makes no difference", "comes-and-goes": "it comes and goes"},
        seconds=(30, 45, None),
        sure=0.95,
    ),
    Trial.MENU: Habit(
        asks='Read {menu} on {unit}{where}. Is it "{value}"?',
        answers=_SAME,
        seconds=(12, 25, 20),
        sure=0.98,
    ),
    Trial.CHANNEL: Habit(
        asks="Read the MIDI channel of {unit}{where}. Is it {value}?",
        answers=_SAME,
        seconds=(12, 25, 20),
        sure=0.98,
    ),
    Trial.NUMBERS: Habit(
        asks="Read how {unit} counts programs and banks, and whether it has a program map.",
        answers=_SAME,
        seconds=(15, 30, None),
        sure=0.98,
    ),
    Trial.HAND: Habit(
        asks="Change a program on {unit} by hand.",
        answers={"good": "it changes", "dead": "it does not react"},
        seconds=(5, 8, 6),
        sure=0.97,
    ),
    Trial.POWER: Habit(
        asks="Look at the power lamp or display of {unit}.",
        answers={"good": "lit", "dark": "dark"},
        seconds=(2, 4, 3),
        sure=0.97,
    ),
    Trial.SUPPLY: Habit(
        asks="Measure the power plug of {unit}{value}.",
        answers={"good": "right", "nothing": "nothing", "wrong": "wrong voltage or polarity"},
        seconds=(60, None, None),
        sure=0.99,
        caution=METER,
    ),
    Trial.LOAD: Habit(
        asks="Measure the supply of {unit} while everything runs, and make it work hard.",
        answers={"good": "steady", "dips": "it dips"},
        seconds=(120, None, None),
        sure=0.95,
        caution=METER,
    ),
    Trial.SOUND: Habit(
        asks="Recall a program on {unit} by hand. Is it the sound that was made for it?",
        answers={"good": "yes", "changed": "no"},
        seconds=(15, 30, 20),
        sure=0.93,
        caution=QUIET,
    ),
    Trial.IDENTITY: Habit(
        asks="Let the computer ask {unit} who it is. Is it the model and firmware of the chart?",
        answers=_SAME,
        seconds=(8, None, None),
        sure=0.99,
    ),
    Trial.ENTRY: Habit(
        asks="Read on the controller what {preset} sends to {unit}. It should be: {value}.",
        answers={"good": "as planned", "missing": "there is nothing", "other": "something else"},
        seconds=(15, 30, 25),
        sure=0.98,
    ),
    Trial.WRITTEN: Habit(
        asks="Leave the controller’s edit page and come back. Are the presets still there?",
        answers={"good": "yes", "no": "no, they are as before"},
        seconds=(10, 15, 15),
        sure=0.98,
    ),
    Trial.PAGE: Habit(
        asks="Read the controller’s display. Is it on the right page, song and bank?",
        answers={"good": "yes", "other": "no"},
        seconds=(4, 6, 4),
        sure=0.98,
    ),
    Trial.PAUSES: Habit(
        asks="Read the pauses in {preset} on the controller. Are they there?",
        answers={"good": "yes", "missing": "no"},
        seconds=(20, 40, None),
        sure=0.98,
    ),
    Trial.LISTEN: Habit(
        asks="Plug the lead of {unit} into the computer’s interface, and press {preset}.",
        answers=_CAME,
        seconds=(25, None, None),
        sure=0.99,
    ),
    Trial.SEND: Habit(
        asks="Plug the computer’s interface into {unit}, and send what {preset} should send.",
        answers=SEEN_WORDS,
        seconds=(30, None, None),
        sure=0.93,
        caution=QUIET,
    ),
    Trial.TEMPO: Habit(
        asks="Change the tempo and watch {unit}.",
        answers={"follows": "it follows", "free": "it does not", "doubled": "twice too fast"},
        seconds=(8, 12, 10),
        sure=0.9,
    ),
    Trial.NOISE: Habit(
        asks="Play nothing, and listen.",
        answers={
            "good": "quiet",
            "whine": "a high whine",
            "hum": "mains hum",
            "usb-noise": "noise that follows the computer",
        },
        seconds=(5, 8, None),
        sure=0.9,
        caution=QUIET,
    ),
    Trial.WHINE: Habit(
        asks="Move the power plug of {unit} to an isolated outlet of the right kind.",
        answers={"good": "the whine stays", "goes": "the whine goes"},
        seconds=(60, 90, None),
        sure=0.95,
        caution=METER,
    ),
    Trial.HUM: Habit(
        asks="Unplug the audio lead behind {unit}. (Never lift a protective earth.)",
        answers={"good": "the hum stays", "goes": "the hum goes"},
        seconds=(30, 45, None),
        sure=0.95,
        caution=QUIET,
    ),
    Trial.USB_NOISE: Habit(
        asks="Unplug the USB lead of {unit}.",
        answers={"good": "the noise stays", "goes": "the noise goes"},
        seconds=(15, 25, 20),
        sure=0.95,
    ),
    Trial.PEDAL: Habit(
        asks="Move {unit} from heel over half way to toe, and read the value.",
        answers={
            "right": "even, from end to end",
            "backwards": "the wrong way round",
            "short-ends": "the ends are not reached",
            "off-half-way": "ends right, half way not",
            "rushes": "all in the first part",
            "still": "it does not move",
            "flickers": "it flickers",
            "jumps": "right, but it jumps after a recall",
        },
        seconds=(15, 25, 20),
        sure=0.95,
        caution=QUIET,
    ),
    Trial.PEDAL_LEAD: Habit(
        asks="Look at the lead of {unit}: plugged in, three contacts at both ends?",
        answers={"good": "yes", "mono": "two contacts", "out": "not plugged in"},
        seconds=(10, 15, 12),
        sure=0.97,
    ),
    Trial.LOOP: Habit(
        asks="Put {unit} in, and play.",
        answers={
            "sound": "it sounds",
            "silent": "silence",
            "crackles": "it crackles",
            "thumps": "it sounds, with a thump as it switches",
            "bursts": "it sounds, with a burst or a gap at the change",
        },
        seconds=(8, 12, 8),
        sure=0.95,
        caution=QUIET,
    ),
    Trial.BRIDGE: Habit(
        asks="Take what hangs in {unit} out of it, lead straight to lead, and play.",
        answers={
            "sound": "it sounds",
            "silent": "silence",
            "other": "it sounds with the plugs exchanged",
        },
        seconds=(30, 45, 40),
        sure=0.95,
        caution=QUIET,
    ),
    Trial.LOOPBACK: Habit(
        asks="Plug the interface’s output into its own input, and let it listen to itself.",
        answers={"good": "it hears itself", "nothing": "it hears nothing"},
        seconds=(30, None, None),
        sure=0.99,
    ),
    Trial.RAMP: Habit(
        asks="Let the computer move a control of {unit} through all its values, slowly and then as "
        "fast as the line goes. Does it take all of them?",
        answers={"good": "all, both times", "dense": "slowly yes, fast not"},
        seconds=(60, None, None),
        sure=0.97,
        caution=QUIET,
    ),
    Trial.STATUS: Habit(
        asks="Let the computer send {unit} two control changes, with a status byte each and then "
        "with one for both. Does it take both, both times?",
        answers={"good": "both, both times", "first": "of those with one, only the first"},
        seconds=(40, None, None),
        sure=0.98,
        caution=QUIET,
    ),
    Trial.DUMP: Habit(
        asks="Plug the computer’s output in where the controller is, its input in place of {unit}, "
        "and send an identity request. Does it come through?",
        answers={"good": "it comes through", "nothing": "nothing comes"},
        seconds=(60, None, None),
        sure=0.98,
    ),
    Trial.RELEASE: Habit(
        asks="Let the computer send {unit} the end of a dump (F7), and a program after it.",
        answers={"good": "makes no difference", "revives": "it reacts again"},
        seconds=(20, None, None),
        sure=0.97,
        caution=QUIET,
    ),
    Trial.HOLD: Habit(
        asks="Hold a long note on {unit} by MIDI and by its own keys, move nothing else, let go.",
        answers={
            "good": "it stays, and ends when let go",
            "cut": "it is cut off after a moment",
            "hangs": "it does not end",
            "mute": "by MIDI it sounds, by its own keys not",
        },
        seconds=(12, 20, 15),
        sure=0.95,
        caution=QUIET,
    ),
    Trial.CLOCKED: Habit(
        asks="Plug the lead of {unit} into the computer’s interface, and let it watch the clock "
        "for ten seconds, with the pedals moving.",
        answers={"good": "even", "uneven": "the mean is right, the spread is large"},
        seconds=(35, None, None),
        sure=0.97,
    ),
    Trial.BOOT: Habit(
        asks="Turn the sound down, switch {unit} off and on, and watch the units behind it.",
        answers={"good": "they stay as they are", "disturbs": "one of them changes"},
        seconds=(30, 45, 40),
        sure=0.95,
        caution=QUIET,
    ),
    Trial.CONTROLS: Habit(
        asks="Read on {unit} which control number each of its controls listens to. As in its "
        "chart?",
        answers=_SAME,
        seconds=(25, 45, None),
        sure=0.98,
    ),
    Trial.BUFFER: Habit(
        asks="Put a thru box that is known to be good before {unit}, and press a preset.",
        answers={"good": "makes no difference", "cures": "now it reacts"},
        seconds=(45, 80, None),
        sure=0.95,
    ),
}
HABITS: Mapping[Trial, Habit] = MappingProxyType(_HABITS)
"""Every kind of check."""
