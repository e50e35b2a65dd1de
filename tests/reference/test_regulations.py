"""The numbers of regulations stand in the checklists and methods as the regulations give them."""

from fractions import Fraction

import pytest

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import JsonValue, Limit
from baycard.checklists.work_file import work_items
from baycard.measure.units import Units

BOOK = load_book(seed_folder())
INCH = Fraction("25.4")
LIMITS = [
    ("tyres-wheels", "tread-round", "tread-below-1.6", "below", Fraction("1.6"), "mm", "SI 1986/1078 reg 27(4)(f)"),
    ("underbody", "tyre-shoulder", "tread-below-1.6", "below", Fraction("1.6"), "mm", "SI 1986/1078 reg 27(4)(f)"),
    ("tyres-wheels", "rim-runout", "bead-runout", "above", INCH / 8, "mm", "49 CFR 570.10(b)"),
    ("steering-suspension", "free-play", "us-lash", "above", 2 * INCH, "mm", "49 CFR 570.7(a)"),
    ("steering-suspension", "linkage-play", "quarter-inch", "above", INCH / 4, "mm", "49 CFR 570.7(b)"),
    ("brakes", "pad", "pad-1.5", "below", Fraction("1.5"), "mm", "MOT inspection manual 1.1.13(a)(ii)"),
    ("brakes", "front-balance", "seventy-per-cent", "below", Fraction(70), "%", "2014/45/EU, Annex I, 1.2.1(b)"),
    ("brakes", "rear-balance", "seventy-per-cent", "below", Fraction(70), "%", "2014/45/EU, Annex I, 1.2.1(b)"),
    ("brakes", "fluid-boiling", "wet-dot-3", "below", Fraction(140), "Cel", "49 CFR 571.116 S5.1.2"),
    ("fluid-leaks", "pool-wait", "pool-over-75-mm", "above", Fraction(75), "mm", "MOT inspection manual 8.4.1"),
    ("fault-codes", "monitors-after", "more-than-one-open", "above", Fraction(1), "1", "40 CFR 85.2222"),
]
WORKED = [
    ("brake-fluid-minimum-boiling-point", {"grade": "DOT 4", "state": "wet"}, {}, Fraction(311), "[degF]"),
    ("brake-fluid-minimum-boiling-point", {"grade": "DOT 3", "state": "dry"}, {}, Fraction(401), "[degF]"),
    ("brake-fluid-minimum-boiling-point", {"grade": "DOT 5.1", "state": "wet"}, {}, Fraction(356), "[degF]"),
    ("speedometer-max-indicated-r39", {}, {"true_speed": (120, "km/h")}, Fraction(136), "km/h"),
    ("readiness-epa-allowed", {}, {"model_year": (2000, "a")}, Fraction(2), "1"),
    ("readiness-epa-allowed", {}, {"model_year": (2001, "a")}, Fraction(1), "1"),
    ("tread-depth-from-32nds", {}, {"n": (2, "1")}, 2 * INCH / 32, "mm"),
]


def limit(checklist: str, check: str, id: str) -> Limit:
    found = BOOK.checklist(checklist)
    assert found is not None
    asked = found.check(check)
    assert asked is not None
    return next(one for one in asked.limits if one.id == id)


@pytest.mark.parametrize("row", LIMITS, ids=lambda row: "-".join(row[:3]))
def test_a_limit_is_the_number_of_its_document(row: tuple[str, str, str, str, Fraction, str, str]) -> None:
    checklist, check, id, side, number, unit, document = row
    found = limit(checklist, check, id)
    assert getattr(found, side) == pytest.approx(float(number), rel=1e-12)
    assert (found.unit, found.basis) == (unit, "published")
    assert document in found.source


@pytest.mark.parametrize(("method", "words", "amounts", "number", "unit"), WORKED)
def test_a_method_gives_the_number_of_its_document(
    method: str, words: dict[str, str], amounts: dict[str, tuple[float, str]], number: Fraction, unit: str
) -> None:
    inputs: dict[str, JsonValue] = {name: {"value": one, "unit": "{text}"} for name, one in words.items()}
    inputs |= {name: {"value": value, "unit": code} for name, (value, code) in amounts.items()}
    (answer,) = work_items([{"method": method, "inputs": inputs}], BOOK)
    value = Units(BOOK.units).convert(float(str(answer["value"])), str(answer["unit"]), unit)
    assert value == pytest.approx(float(number), rel=1e-9)
