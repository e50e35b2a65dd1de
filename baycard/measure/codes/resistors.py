"""Resistors: colour bands and preferred values.

Sources: IEC 60062 (colours, from memory), IEC 60063 (series E24; E96 as 10^(n/96) to three digits).
"""

import math
from collections.abc import Sequence

from baycard.measure.arithmetic import round_away
from baycard.measure.errors import MeasureError

COLOURS = ("black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white")
POWERS = {**{colour: power for power, colour in enumerate(COLOURS)}, "gold": -1, "silver": -2}
SMALLEST = 1.0
"""The least resistor to put in place of a sender, in ohms."""
E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)


def decode(bands: Sequence[str]) -> float:
    """The resistance in ohms of three to six bands: two digits up to four bands, else three; tolerance is not read."""
    colours = [band.lower().replace("gray", "grey") for band in bands]
    count = 2 if len(colours) < 5 else 3
    if not 3 <= len(colours) <= 6 or colours[count] not in POWERS:
        raise MeasureError("outside-domain", "name three to six bands by colour")
    digits = 0
    for colour in colours[:count]:
        if colour not in COLOURS:
            raise MeasureError("outside-domain", f"{colour} cannot be a digit")
        digits = digits * 10 + COLOURS.index(colour)
    return _times_ten(digits, POWERS[colours[count]])


def bands(resistance: float) -> list[str]:
    """The colours of the first three bands, two digits and a power of ten, of an E24 value from 0.1 ohm to 91 Mohm."""
    power = math.floor(math.log10(resistance)) - 1 if resistance > 0 else -9
    digits = int(round_away(_times_ten(1, -power) * resistance)) if -2 <= power <= 6 else 0
    if digits not in E24 or abs(_times_ten(digits, power) - resistance) > 1e-9 * resistance:
        raise MeasureError("outside-domain", "only values of the series E24 from 0.1 ohm to 91 Mohm have two digits")
    colour = next(name for name, one in POWERS.items() if one == power)
    return [COLOURS[digits // 10], COLOURS[digits % 10], colour]


def substitute(level: float, empty: float, full: float) -> float:
    """The E24 value nearest to what a straight sender has at a level in per cent, from its ends in ohms; 1 ohm or more.

    Some senders begin at 0 ohm. A bare wire in their place may short a supply, and none of them can tell 1 ohm from 0.
    """
    return e24_nearest(max(SMALLEST, empty + (full - empty) * level / 100))


def e96_value(n: int) -> float:
    """The value of place n in the series, between 1 and 10 for n from 0 to 95."""
    if not 0 <= n <= 95:
        raise MeasureError("outside-domain", "the series has places 0 to 95")
    return round_away(100 * math.pow(10, n / 96)) / 100


def e24_nearest(resistance: float) -> float:
    """The E24 value nearest in ohms; the lower one at the middle."""
    return _nearest(resistance, [value * 10 for value in E24])


def e96_nearest(resistance: float) -> float:
    """The E96 value nearest in ohms; the lower one at the middle."""
    return _nearest(resistance, [int(round_away(100 * e96_value(n))) for n in range(96)])


def _nearest(resistance: float, hundreds: Sequence[int]) -> float:
    if not 1e-6 <= resistance <= 1e12:
        raise MeasureError("outside-domain", "a resistance is positive")
    power = math.floor(math.log10(resistance)) - 2
    values = [_times_ten(value, power) for value in (*hundreds, 1000)]
    best = values[0]
    for value in values:
        if abs(value - resistance) < abs(best - resistance):
            best = value
    return best


def _times_ten(digits: int, power: int) -> float:
    """digits * 10^power with one rounding."""
    return digits * math.pow(10, power) if power >= 0 else digits / math.pow(10, -power)
