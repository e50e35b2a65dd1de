"""Card three: a pickup measured in US units, signed, repaired, measured again and signed a second time."""

from dataclasses import dataclass

from baycard.checklists.types import Book
from baycard.demo.pen import Pen, Staff, Story, begin

BEARING, LEAKS = "bearing-play", "fluid-leaks"
RIM, NOISE = f"{BEARING}/rim-movement/front-right", f"{BEARING}/spin-noise/front-right"
WET = f"{LEAKS}/grade-of-wetness/leak-1"


@dataclass(frozen=True, slots=True)
class PickupFindings:
    """The slots of what was found."""

    play: str
    rumble: str
    leak: str


def pickup_as_found(staff: Staff, book: Book, start_ms: int) -> tuple[Story, PickupFindings]:
    """The pickup's card up to the first signature."""
    story = begin("pickup", start_ms)
    tom = Pen(story, staff.tom)
    shake, drops = _book_in(tom)
    tom.choose(book, BEARING, LEAKS)
    findings = _walk(tom, book, shake, drops)
    tom.hand_in("Front right bearing is clear. The seep can wait if they top up.")
    return story, findings


def _book_in(pen: Pen) -> tuple[str, str]:
    pen.facts(
        {
            "card/title": "Halden Ridgeback, shake at speed",
            "card/opened": "2026-11-18",
            "vehicle/make": "Halden",
            "vehicle/model": "Ridgeback 5.0",
            "vehicle/plate": "RDG 5088",
            "vehicle/vin": "5ZRDG50L8JT730926",
            "vehicle/year": 2018,
            "vehicle/fuel": "petrol",
            "vehicle/odometer": (71_300, "[mi_i]"),
            "vehicle/modifications": "Lifted two inches; brought over from the United States.",
            "vehicle/maker/bearing-play-at-rim": (0.005, "[in_i]"),
            "card/planned-use": "Tows a small boat at weekends.",
            "customer/name": "Ellis",
        }
    )
    shake = pen.complaint("Growls and shakes a little at sixty, worse in long left-hand bends.")
    return shake, pen.complaint("Now and then a drop under the engine.")


def _walk(pen: Pen, book: Book, shake: str, drops: str) -> PickupFindings:
    pen.number(f"{BEARING}/dial-radius/vehicle", [8.6], "[in_i]", "tape-measure-1")
    for place, warm in (("front-left", 98), ("front-right", 127), ("rear-right", 101), ("rear-left", 100)):
        pen.number(f"{BEARING}/hub-temperature/{place}", [warm], "[degF]", "infrared-thermometer-0.1")
        pen.choice(f"{BEARING}/rock-3-9/{place}", "none")
        pen.choice(f"{BEARING}/abs-ring/{place}", "hidden" if place.startswith("front") else "sound")
    for place in ("front-left", "rear-right", "rear-left"):
        pen.choice(f"{BEARING}/rock-12-6/{place}", "none")
        pen.choice(f"{BEARING}/spin-noise/{place}", "quiet")
        pen.choice(f"{BEARING}/roughness/{place}", "smooth")
    pen.choice(f"{BEARING}/rock-12-6/front-right", "clear")
    pen.number(f"{BEARING}/rim-movement/front-left", [0.002, 0.002], "[in_i]", "dial-indicator-0.01")
    pen.number(RIM, [0.014, 0.013, 0.014], "[in_i]", "dial-indicator-0.01")
    dial = pen.photo("hub-play", f"{RIM}/1", "Front right, before")
    pen.choice(NOISE, "rumble")
    play = pen.accept(book, RIM, "maker-rim-play", photos=[dial], complaints=[shake])
    pen.decline(f"{BEARING}/rock-12-6/front-right", "The same bearing as the dial reading; counted once.")
    rumble = pen.accept(book, NOISE, "rumble", complaints=[shake])
    pen.outcome(shake, "cause-found", [play, rumble], "The front right wheel bearing.")
    pen.words(f"{LEAKS}/customer-tells/vehicle", "A drop the size of a coin, some mornings.")
    for fluid in ("engine-oil", "coolant", "power-steering"):
        pen.choice(f"{LEAKS}/level/level-{fluid}", "between")
    pen.choice(f"{LEAKS}/brake-fluid-level/level-brake-fluid", "between")
    pen.choice(f"{LEAKS}/which-fluid/leak-1", "engine-oil")
    pen.words(f"{LEAKS}/from-where/leak-1", "Sump, rear edge.")
    wet = pen.photo("sump-wet", f"{LEAKS}/from-where/leak-1/1", "Sump, rear edge")
    pen.choice(WET, "wet")
    leak = pen.accept(book, WET, "wet", photos=[wet], complaints=[drops])
    pen.outcome(drops, "cause-found", [leak], "Engine oil from the edge of the sump.")
    pen.not_checked(f"{LEAKS}/distance-since-full/level-engine-oil", "other", "nobody knows")
    return PickupFindings(play, rumble, leak)


def pickup_after_work(story: Story, found: PickupFindings, staff: Staff) -> None:
    """The answers of the customer, the work and the checks again; goes on in the same story."""
    ruth, tom = Pen(story, staff.ruth), Pen(story, staff.tom)
    ruth.agreed(found.play, "go-ahead", "Ellis")
    ruth.agreed(found.rumble, "go-ahead", "Ellis")
    ruth.agreed(found.leak, "not-now", "Ellis")
    story.wait(22 * 60)
    tom.work(
        [found.play, found.rumble],
        "Front right hub unit replaced. New axle nut, brake disc cleaned and refitted.",
        parts=[
            {"name": "hub unit with bearing", "state": "new", "count": 1},
            {"name": "axle nut", "state": "new", "count": 1},
            {"name": "brake disc", "state": "re-used", "count": 1},
        ],
        torque="As the maker's repair sheet for this axle says, wheel on the ground",
        improvised="Clip of the speed sensor cable was broken; held with a cable tie until the part comes.",
    )
    again = tom.after_work()
    again.number(RIM, [0.001, 0.001, 0.001], "[in_i]", "dial-indicator-0.01")
    again.photo("hub-after", f"{RIM}/2", "Front right, after")
    again.choice(NOISE, "quiet")
    again.hand_in("Done and measured again. Sump left as agreed.")
