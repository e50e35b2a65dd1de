"""Card two: a family estate car with a soft brake pedal, handed in with two readings that disagree."""

from baycard.checklists.types import Book
from baycard.demo.pen import Pen, Staff, Story, begin

BRAKES, LEAKS, UNDER = "brakes", "fluid-leaks", "underbody"


def estate(staff: Staff, book: Book, start_ms: int) -> Story:
    """The estate's card as it lies on the desk."""
    story = begin("estate", start_ms)
    ines, tom = Pen(story, staff.ines), Pen(story, staff.tom)
    soft = _book_in(tom)
    tom.choose(book, BRAKES, LEAKS, UNDER)
    _brakes(tom, book, soft)
    _wheels(tom, ines, book)
    ines.hand_in(
        "Stopped here, the brake hose needs the customer today. Two of us read the rear right tyre apart: please look."
    )
    return story


def _book_in(pen: Pen) -> str:
    pen.facts(
        {
            "card/title": "Pellworth Strand, soft pedal",
            "card/opened": "2026-11-20",
            "vehicle/make": "Pellworth",
            "vehicle/model": "Strand 2.0 estate",
            "vehicle/plate": "KP 118 ST",
            "vehicle/vin": "XZPSTR208KP118052",
            "vehicle/year": 2019,
            "vehicle/fuel": "petrol",
            "vehicle/odometer": (88_450, "km"),
            "card/planned-use": "School run and shopping.",
            "customer/name": "Jonah",
        }
    )
    return pen.complaint("The brake pedal goes down further than it used to and feels soft.")


def _brakes(pen: Pen, book: Book, soft: str) -> None:
    pedal = f"{BRAKES}/pedal/cabin"
    pen.choice(pedal, "sinks", "Down by a third in one minute, engine running.")
    for place, inner, outer in (("front-left", 6.1, 6.4), ("front-right", 6.0, 6.3)):
        pen.spread(f"{BRAKES}/pad/{place}", {"inner": inner, "outer": outer}, "mm", "pad-gauge-1")
    pen.choice(f"{LEAKS}/brake-fluid-level/level-brake-fluid", "below-min")
    pen.choice(f"{LEAKS}/level/level-engine-oil", "between")
    pen.choice(f"{LEAKS}/level/level-coolant", "between")
    fluid = f"{LEAKS}/which-fluid/leak-1"
    pen.choice(fluid, "brake-fluid")
    pen.words(
        f"{LEAKS}/from-where/leak-1", "Front left brake hose, at the crimp; the hose bulges when the pedal is held."
    )
    photo = pen.photo("brake", f"{LEAKS}/from-where/leak-1/1", "Front left: wet below the hose")
    hose = f"{UNDER}/brake-hose/front-left"
    pen.choice(hose, "near-failure", "Bulges about a third of its width with the pedal held.")
    pen.choice(f"{UNDER}/brake-hose/front-right", "sound")
    pen.not_checked(f"{UNDER}/brake-hose/rear-left", "no-access", "guard seized, would have to be drilled")
    sinking = pen.accept(book, pedal, "sinks", complaints=[soft])
    leak = pen.accept(book, fluid, "brake-fluid", photos=[photo], complaints=[soft])
    bulge = pen.accept(book, hose, "near-failure", complaints=[soft])
    pen.outcome(soft, "cause-found", [bulge, leak, sinking], "The front left brake hose gives way and leaks.")


def _wheels(tom: Pen, ines: Pen, book: Book) -> None:
    for place, depths in (
        ("front-left", (4.9, 5.1, 4.8)),
        ("front-right", (4.8, 5.0, 4.9)),
        ("rear-left", (2.4, 3.0, 3.1)),
    ):
        _tread(tom, place, depths)
    _tread(tom, "rear-right", (1.4, 2.9, 3.0))
    _tread(ines, "rear-right", (1.9, 2.9, 3.1), unseen=True)
    tom.photo("tread", f"{UNDER}/tyre-shoulder/rear-right/1", "Rear right, inner shoulder")
    tom.choice(f"{UNDER}/ball-joint/front-left", "sound")
    tom.choice(f"{UNDER}/ball-joint/front-right", "boot")
    tom.accept(book, f"{UNDER}/ball-joint/front-right", "boot", note="Grease still clean inside.")


def _tread(pen: Pen, place: str, depths: tuple[float, float, float], *, unseen: bool = False) -> None:
    values = dict(zip(("inner", "middle", "outer"), depths, strict=True))
    pen.spread(f"{UNDER}/tyre-shoulder/{place}", values, "mm", "tread-gauge-0.1", unseen=unseen)
