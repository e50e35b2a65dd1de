"""How old a tyre is on a date, from the week and year on its side wall.

Source: 49 CFR 574.5: four digits since July 2000; week 01 is the first full week of the year, from Sunday to Saturday.
"""

import re
from datetime import date, timedelta

from baycard.measure.codes import tyre
from baycard.measure.errors import MeasureError

DAYS_OF_YEAR = 365.2425
DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")


def age_years(code: str, on: str) -> float:
    """The age in years on a date written as 2026-11-20, counted from the Sunday of the week of making.

    Raises MeasureError `outside-domain` for three digits (the decade cannot be told), and for a week yet to come.
    """
    if len(code) != 4:
        raise MeasureError("outside-domain", "give the four digits of week and year; three digits are from before 2000")
    tyre.date(code)
    days = (_day(on) - _first_day(int(code[:2]), 2000 + int(code[2:]))).days
    if days < 0:
        raise MeasureError("outside-domain", "the tyre would be made after that date; read the code again")
    return days / DAYS_OF_YEAR


def age_of_number(made: int, on: str) -> float:
    """The same for a code typed in as a number, without its leading nought."""
    return age_years(f"{made:04d}", on)


def _first_day(week: int, year: int) -> date:
    new_year = date(year, 1, 1)
    return new_year + timedelta(days=(6 - new_year.weekday()) % 7 + 7 * (week - 1))


def _day(text: str) -> date:
    """The day; a time behind it is not read."""
    found = DAY.match(text)
    try:
        if found:
            return date(int(found[1]), int(found[2]), int(found[3]))
    except ValueError:
        pass
    raise MeasureError("outside-domain", "write the date as 2026-11-20")
