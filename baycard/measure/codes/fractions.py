"""Inches as a rule or a tread gauge shows them: whole, fraction, or both."""

import re

from baycard.measure.errors import MeasureError

WRITTEN = re.compile(r"(?:([0-9]{1,3})[ -])?([0-9]{1,3})/([1-9][0-9]{0,2})|([0-9]{1,3}(?:[.,][0-9]{1,6})?)")


def inches(text: str) -> float:
    """The inches of `7/32`, `1 3/8`, `1-3/8`, `2` or `0.5`, an inch mark allowed.

    Raises MeasureError `outside-domain`.
    """
    found = WRITTEN.fullmatch(re.sub(r"[ ]*(\"|in|inch)$", "", text))
    if not found:
        raise MeasureError("outside-domain", "write inches as 1 3/8 or 7/32")
    if found[4] is not None:
        return float(found[4].replace(",", "."))
    return int(found[1] or 0) + int(found[2]) / int(found[3])
