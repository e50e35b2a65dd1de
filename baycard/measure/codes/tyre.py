"""What is written on a tyre: size, load index, speed symbol, date of making.

Sources: ISO 4000-1 and UN R30 (size, load index, speed symbol; from tables that agree, the standards not seen),
49 CFR 574.5 and 64 FR 36807 (date code). Load indices above 119 and speed symbols below Q are from memory.
"""

import re
from dataclasses import dataclass

from baycard.measure.errors import MeasureError

FIRST_INDEX = 60
LOADS_KG = (
    *(250, 257, 265, 272, 280, 290, 300, 307, 315, 325, 335, 345, 355, 365, 375, 387, 400, 412, 425, 437),
    *(450, 462, 475, 487, 500, 515, 530, 545, 560, 580, 600, 615, 630, 650, 670, 690, 710, 730, 750, 775),
    *(800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030, 1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360),
    *(1400, 1450, 1500, 1550, 1600, 1650, 1700),
)
SPEEDS_KMH = {
    **{"L": 120, "M": 130, "N": 140, "P": 150},
    **{"Q": 160, "R": 170, "S": 180, "T": 190, "U": 200, "H": 210, "V": 240, "W": 270, "Y": 300},
}
FIRST_DATED = 1971
WEEKS_OF_2000 = 26
"""Three digits were used until 2 July 2000."""
SIZE = re.compile(
    r"(?:P|LT)?(?P<width>[1-9][0-9]{2})(?:/(?P<aspect>[1-9][0-9]))?Z?(?P<build>[RDB-])(?P<rim>[1-9][0-9](?:\.5)?)(?P<van>C)?"
    r"(?:(?P<load>[0-9]{2,3})(?:/(?P<twin>[0-9]{2,3}))?(?P<speed>[L-NP-UHVWY]))?(?:XL)?"
)


@dataclass(frozen=True, slots=True)
class TyreSize:
    """A metric size: width in mm, height in per cent of it, rim in inches; None for what is not written."""

    width_mm: int
    aspect_percent: int | None
    build: str
    rim_in: float
    light_truck: bool
    load_index: int | None
    load_index_twin: int | None
    speed_symbol: str | None


def size(designation: str) -> TyreSize:
    """The parts of a size such as `205/55 R16 91V` or `235/65 R16C 115/113R`.

    Raises MeasureError `outside-domain` for anything else, flotation and metric-rim sizes among them.
    """
    found = SIZE.fullmatch(re.sub(r"[ \t()]", "", designation.upper()))
    if not found:
        raise MeasureError("outside-domain", "write the size as 205/55 R16 91V")
    return TyreSize(
        width_mm=int(found["width"]),
        aspect_percent=_whole(found["aspect"]),
        build="D" if found["build"] == "-" else found["build"],
        rim_in=float(found["rim"]),
        light_truck=found["van"] is not None or designation.strip().upper().startswith("LT"),
        load_index=_whole(found["load"]),
        load_index_twin=_whole(found["twin"]),
        speed_symbol=found["speed"],
    )


def size_part(designation: str, part: str) -> float | str:
    """One part of a size, by its name in TyreSize. Raises MeasureError `outside-domain` when it is not written."""
    value: float | str | None = getattr(size(designation), part)
    if value is None:
        raise MeasureError("outside-domain", f"{designation} does not say its {part.partition('_')[0]}")
    return value


def load_kg(load_index: int) -> int:
    """The load one tyre may carry, by the table. Raises MeasureError `outside-domain` outside 60 to 126."""
    place = load_index - FIRST_INDEX
    if not 0 <= place < len(LOADS_KG):
        raise MeasureError(
            "outside-domain", f"load indices from {FIRST_INDEX} to {FIRST_INDEX + len(LOADS_KG) - 1} are known"
        )
    return LOADS_KG[place]


def axle_capacity_kg(load_index: int, tyres: int) -> int:
    """The load that so many tyres of one index may carry together."""
    if tyres < 1:
        raise MeasureError("outside-domain", "an axle has at least one tyre")
    return load_kg(load_index) * tyres


def load_share_percent(load_index: int, tyres: int, axle_load: float) -> float:
    """The load of an axle in kg as a share of what its tyres may carry together; above 100 they are overloaded."""
    return 100 * axle_load / axle_capacity_kg(load_index, tyres)


def speed_kmh(symbol: str) -> int:
    """The speed of a symbol; H stands between U and V."""
    if symbol.upper() not in SPEEDS_KMH:
        raise MeasureError("outside-domain", f"speed symbols are {' '.join(SPEEDS_KMH)}")
    return SPEEDS_KMH[symbol.upper()]


def date(code: str) -> dict[str, object]:
    """Week and possible years of the last digits of the tyre's identification number.

    Four digits: week and year. Three: week and last digit of a year before July 2000, the decade cannot be told.
    """
    if not re.fullmatch(r"[0-9]{3,4}", code) or not 1 <= int(code[:2]) <= 53:
        raise MeasureError("outside-domain", "give the three or four digits of week and year")
    week, year = int(code[:2]), int(code[2:])
    if len(code) == 4:
        return {"week": week, "years": [2000 + year]}
    last = 2000 if week <= WEEKS_OF_2000 else 1999
    return {"week": week, "years": [one for one in range(1970 + year, last + 1, 10) if one >= FIRST_DATED]}


def _whole(digits: str | None) -> int | None:
    return None if digits is None else int(digits)
