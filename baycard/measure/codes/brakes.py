"""Brakes: the smallest thickness stamped on a disc, and the boiling point its fluid must have.

Source of the boiling points: 49 CFR 571.116 (FMVSS 116), S5.1.1 and S5.1.2; all but the wet one of DOT 4 from memory.
"""

import re
from collections.abc import Mapping

from baycard.measure.errors import MeasureError

STAMP = re.compile(
    r"(?:MIN(?:IMUM)?[ .:]*)(?:TH(?:ICKNESS|ICK|K)?[ .:]*)?=?[ ]*([0-9]{1,2}[.,][0-9]{1,3}|[0-9]{1,2}|[.,][0-9]{2,3})"
    r"[ ]*(MM|IN|INCH|\")?\.?"
)
INCH_MM = 25.4
MOST_MM = 60.0
DRY_CEL = {"DOT 3": 205.0, "DOT 4": 230.0, "DOT 5": 260.0, "DOT 5.1": 260.0}
WET_CEL = {"DOT 3": 140.0, "DOT 4": 155.0, "DOT 5": 180.0, "DOT 5.1": 180.0}
"""Lowest equilibrium reflux boiling points: new fluid, and fluid that has taken up water as the standard lays down."""


def disc_minimum_mm(stamp: str) -> float:
    """The smallest thickness from a stamp such as `MIN TH 22.4 mm`, `Min. Th. = 0.882 in` or `min 9,0`, in millimetres.

    Without a unit millimetres are meant, or inches for a figure below 2. Raises MeasureError `outside-domain` else.
    """
    found = STAMP.fullmatch(re.sub(r"[ \t]+", " ", stamp.strip().upper()))
    if not found:
        raise MeasureError("outside-domain", "write the stamp as MIN TH 22.4 mm")
    figure = float(found[1].replace(",", "."))
    inches = figure < 2 if found[2] is None else found[2] != "MM"
    thickness = figure * INCH_MM if inches else figure
    if not 1 <= thickness <= MOST_MM:
        raise MeasureError("outside-domain", "a disc is between 1 and 60 mm thick; read the stamp again")
    return thickness


def boiling_minimum_cel(grade: str, state: str) -> float:
    """The lowest boiling point in degrees Celsius of a grade such as `DOT 4`, `dry` (new) or `wet`."""
    table: Mapping[str, float] = {"dry": DRY_CEL, "wet": WET_CEL}.get(state.lower(), {})
    name = re.sub(r"^DOT[ -]?", "DOT ", grade.upper())
    if name not in table:
        raise MeasureError("outside-domain", f"the grades are {', '.join(DRY_CEL)}, each dry or wet")
    return table[name]
