"""The four bytes of service 01 PID 01: warning lamp, number of codes, which monitors exist and which are not complete.

Sources: SAE J1979 / ISO 15031-5; EPA420-R-01-015 (June 2001) under 40 CFR 85.2222 for how many may be open.
"""

from collections.abc import Sequence

from baycard.measure.errors import MeasureError

CONTINUOUS = ("misfire", "fuel-system", "components")
SPARK = (
    *("catalyst", "heated-catalyst", "evaporative", "secondary-air"),
    *("ac-refrigerant", "o2-sensor", "o2-heater", "egr-vvt"),
)
COMPRESSION = (
    *("nmhc-catalyst", "nox-scr", "reserved-2", "boost-pressure"),
    *("reserved-4", "exhaust-gas-sensor", "pm-filter", "egr-vvt"),
)
"""Bits 0 to 7; a reserved bit that is set is named too, so that no open monitor goes unseen."""


def lamp_on(octets: Sequence[int]) -> bool:
    """Whether the malfunction indicator is commanded on."""
    return _four(octets)[0] >= 0x80


def code_count(octets: Sequence[int]) -> int:
    """The number of stored emission-related codes."""
    return _four(octets)[0] & 0x7F


def ignition_type(octets: Sequence[int]) -> str:
    """`spark` or `compression`; it decides what the last two bytes mean."""
    return "compression" if _four(octets)[1] & 8 else "spark"


def supported(octets: Sequence[int]) -> list[str]:
    """The monitors the vehicle has."""
    return _continuous(octets, 0x01) + _others(octets, _four(octets)[2])


def incomplete(octets: Sequence[int]) -> list[str]:
    """The monitors the vehicle has that have not run to their end."""
    return _continuous(octets, 0x11) + _incomplete_others(octets)


def incomplete_count(octets: Sequence[int]) -> int:
    """How many of the monitors that run once per trip are not complete."""
    return len(_incomplete_others(octets))


def epa_allowed(model_year: int) -> int:
    """How many open monitors the guidance accepts: two for 1996 to 2000, then one. States may be stricter."""
    if model_year < 1996:
        raise MeasureError("outside-domain", "the guidance is for model years from 1996")
    return 2 if model_year <= 2000 else 1


def epa_accepted(model_year: int, incomplete: int) -> bool:
    """Whether the guidance accepts so many open monitors."""
    if incomplete < 0:
        raise MeasureError("outside-domain", "a number of monitors is not negative")
    return incomplete <= epa_allowed(model_year)


def _four(octets: Sequence[int]) -> Sequence[int]:
    if len(octets) != 4:
        raise MeasureError("outside-domain", "the answer of service 01 PID 01 has four bytes")
    return octets


def _continuous(octets: Sequence[int], mask: int) -> list[str]:
    """The continuous monitors whose bits of the mask, moved to their place, are all set in byte B."""
    flags = _four(octets)[1]
    return [name for place, name in enumerate(CONTINUOUS) if flags & mask << place == mask << place]


def _others(octets: Sequence[int], flags: int) -> list[str]:
    names = COMPRESSION if ignition_type(octets) == "compression" else SPARK
    return [name for place, name in enumerate(names) if flags >> place & 1]


def _incomplete_others(octets: Sequence[int]) -> list[str]:
    _, _, has, open_ = _four(octets)
    return _others(octets, has & open_)
