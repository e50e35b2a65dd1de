"""Card one: the bakery's van, on the lift, half walked round. Hum from the rear, loss of pull, oil on the yard."""

from baycard.checklists.types import Book
from baycard.demo.pen import Pen, Staff, Story, begin

BEARING, LEAKS, INTAKE = "bearing-play", "fluid-leaks", "intake-pressure"


def van(staff: Staff, book: Book, start_ms: int) -> Story:
    """The van's card as two technicians left it at lunch."""
    story = begin("van", start_ms)
    ines, tom = Pen(story, staff.ines), Pen(story, staff.tom)
    hum, pull, oil = _book_in(ines)
    ines.choose(book, BEARING, LEAKS, INTAKE)
    _bearings(ines, book, hum)
    _leaks(tom, book, oil)
    _intake(ines, book, pull)
    return story


def _book_in(pen: Pen) -> tuple[str, str, str]:
    pen.facts(
        {
            "card/title": "Corvane Tadorna, before the ferry",
            "card/opened": "2026-11-20",
            "vehicle/make": "Corvane",
            "vehicle/model": "Tadorna 1.6 D",
            "vehicle/plate": "TS 41 BKR",
            "vehicle/vin": "XZCTAD168HT204417",
            "vehicle/year": 2017,
            "vehicle/fuel": "diesel",
            "vehicle/odometer": (164_200, "km"),
            "vehicle/modifications": "Bread racks in the back; wheels one inch wider than delivered.",
            "vehicle/maker/bearing-play-at-rim": (0.10, "mm"),
            "card/planned-use": "Loaded, 900 km and a ferry, leaving on Friday.",
            "customer/name": "Marta, the bakery",
        }
    )
    complaints = (
        pen.complaint("It hums from the back and the faster I drive the louder it gets."),
        pen.complaint("Uphill it has no pull and there is a whistle."),
        pen.complaint("It leaves oil spots on our yard."),
    )
    pen.photo("yard", None, "The spots on the customer's yard, as she showed us")
    return complaints


def _bearings(pen: Pen, book: Book, hum: str) -> None:
    pen.number(f"{BEARING}/dial-radius/vehicle", [205], "mm", "steel-rule-0.5")
    for place, warm in (("front-left", 41), ("front-right", 43), ("rear-right", 38), ("rear-left", 71)):
        pen.number(f"{BEARING}/hub-temperature/{place}", [warm], "Cel", "infrared-thermometer-0.1")
    for place in ("front-left", "front-right", "rear-right"):
        pen.choice(f"{BEARING}/rock-12-6/{place}", "none")
        pen.choice(f"{BEARING}/rock-3-9/{place}", "none")
        pen.choice(f"{BEARING}/spin-noise/{place}", "quiet")
    pen.choice(f"{BEARING}/rock-12-6/rear-left", "clear")
    pen.choice(f"{BEARING}/rock-brake/rear-left", "gone")
    rim = f"{BEARING}/rim-movement/rear-left"
    pen.number(rim, [0.31, 0.33, 0.32], "mm", "dial-indicator-0.01")
    photo = pen.photo("hub-play", f"{rim}/1", "Rear left: the dial at the rim reads 0.32 mm")
    pen.number(f"{BEARING}/rim-movement/rear-right", [0.09, 0.10, 0.09], "mm", "dial-indicator-0.01")
    pen.not_checked(f"{BEARING}/hub-movement/rear-left", "no-time", "to be done when the wheel is off")
    pen.choice(f"{BEARING}/spin-noise/rear-left", "rumble", "Rumble felt at the knuckle, louder under load.")
    found = pen.accept(book, rim, "maker-rim-play", photos=[photo], complaints=[hum])
    pen.outcome(hum, "cause-found", [found], "The wheel bearing at the rear left.")


def _leaks(pen: Pen, book: Book, oil: str) -> None:
    pen.words(f"{LEAKS}/customer-tells/vehicle", "A saucer of brown spots each morning under the engine.")
    pen.choice(f"{LEAKS}/level/level-engine-oil", "below-min")
    pen.choice(f"{LEAKS}/level/level-coolant", "between")
    pen.choice(f"{LEAKS}/which-fluid/leak-1", "engine-oil")
    pen.words(f"{LEAKS}/from-where/leak-1", "Sump gasket, front edge; dry above it.")
    photo = pen.photo("sump-wet", f"{LEAKS}/from-where/leak-1/1", "Sump, front edge: wet from the gasket down")
    wet = f"{LEAKS}/grade-of-wetness/leak-1"
    pen.choice(wet, "drips")
    drops = [(0.0, 1.0), (24.0, 2.0), (51.0, 3.0), (79.0, 4.0), (104.0, 5.0), (131.0, 6.0), (158.0, 7.0)]
    pen.run(f"{LEAKS}/drip-count/leak-1", drops, "{drop}", "eye-count")
    pen.accept(book, wet, "drips", photos=[photo], complaints=[oil])


def _intake(pen: Pen, book: Book, pull: str) -> None:
    pen.words(f"{INTAKE}/capped-off/intake", "Cap behind the air meter, breather plugged, exhaust valve shut.")
    pen.number(f"{INTAKE}/system-volume/intake", [9.5], "L", "")
    pen.number(f"{INTAKE}/ambient-pressure/intake", [100.8], "kPa", "barometer-0.1")
    pen.number(f"{INTAKE}/test-pressure/intake", [20.0], "kPa", "pressure-gauge-0.1")
    pen.choice(f"{INTAKE}/smoke/joint-hot-hose", "none")
    hose = f"{INTAKE}/smoke/joint-cold-hose"
    pen.choice(hose, "stream", "A split along the underside that opens when the hose is bent.")
    photo = pen.photo("hose-cracked", f"{hose}/1", "Hose from charge cooler to throttle, underside")
    pen.number(f"{INTAKE}/temperature-start/intake", [21.0], "Cel", "contact-thermometer-0.1")
    fall = [20.0, 17.6, 15.5, 13.7, 12.1, 10.7, 9.4, 8.3, 7.3, 6.5, 5.7, 5.1, 4.5]
    samples = [(10.0 * n, pressure) for n, pressure in enumerate(fall)]
    pen.run(f"{INTAKE}/pressure-run/intake", samples, "kPa", "pressure-gauge-0.1")
    pen.number(f"{INTAKE}/temperature-end/intake", [21.0], "Cel", "contact-thermometer-0.1")
    pen.accept(book, hose, "stream", photos=[photo], complaints=[pull])
