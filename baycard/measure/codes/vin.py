"""Vehicle identification numbers: check digit, wrong characters, model year, region.

Sources: ISO 3779 (shape), 49 CFR 565.15 (check digit, Table VII of model years and its note on position 7), ISO 3780
(regions, as several public listings give them). The check digit is the rule in North America only: elsewhere a number
that fails it may be right, so warn and never refuse.
"""

from baycard.measure.errors import MeasureError

LENGTH = 17
WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
LETTERS = dict(zip("ABCDEFGHJKLMNPRSTUVWXYZ", (*range(1, 9), *range(1, 6), 7, 9, *range(2, 10)), strict=True))
COUNTS = {**LETTERS, **{str(digit): digit for digit in range(10)}}
YEAR_CODES = "ABCDEFGHJKLMNPRSTVWXY123456789"
FIRST_YEAR = 1980
REGIONS = {
    "ABC": "Africa",
    "JKLMNPR": "Asia",
    "STUVWXYZ": "Europe",
    "12345": "North America",
    "6": "Oceania",
    "89": "South America",
}


def weighted_sum(vin: str) -> int:
    """The sum of value times weight over all 17 characters. Raises MeasureError `outside-domain` for a wrong shape."""
    number = vin.upper()
    if len(number) != LENGTH or invalid_positions(number):
        raise MeasureError("outside-domain", "a VIN has 17 letters and digits, never I, O or Q")
    return sum(COUNTS[character] * weight for character, weight in zip(number, WEIGHTS, strict=True))


def check_digit(vin: str) -> str:
    """The digit, or X, that position 9 should hold."""
    rest = weighted_sum(vin) % 11
    return "X" if rest == 10 else str(rest)


def check_valid(vin: str) -> bool:
    """Whether position 9 holds the check digit; a wrong shape is not valid."""
    try:
        return check_digit(vin) == vin.upper()[8]
    except MeasureError:
        return False


def parts(vin: str) -> list[str]:
    """Maker (positions 1 to 3), description (4 to 9) and serial part (10 to 17), as ISO 3779 divides the number."""
    weighted_sum(vin)
    number = vin.upper()
    return [number[:3], number[3:9], number[9:]]


def invalid_positions(vin: str) -> list[int]:
    """The positions, counted from 1, whose character never stands in a VIN."""
    return [place for place, character in enumerate(vin.upper(), 1) if character not in COUNTS]


def model_year_candidates(code: str) -> list[int]:
    """The years that the code in position 10 may mean; none when the code is not one."""
    place = YEAR_CODES.find(code.upper()) if len(code) == 1 else -1
    return [] if place < 0 else [FIRST_YEAR + place, FIRST_YEAR + place + len(YEAR_CODES)]


def model_year_us_light(seventh: str, code: str) -> int:
    """The model year of a US passenger car, MPV or truck up to 4536 kg: a digit in position 7 means before 2010."""
    years = model_year_candidates(code)
    if not years or len(seventh) != 1 or seventh.upper() not in COUNTS:
        raise MeasureError("outside-domain", "positions 7 and 10 do not name a model year")
    return years[0] if seventh.isdigit() else years[1]


def region(first: str) -> str:
    """The part of the world of the first character; `not sure` where the lists have changed or disagree."""
    if len(first) != 1 or first.upper() not in COUNTS:
        raise MeasureError("outside-domain", "position 1 is a letter or a digit, never I, O or Q")
    return next((name for codes, name in REGIONS.items() if first.upper() in codes), "not sure")
