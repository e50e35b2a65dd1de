"""What uneven wear across the tread of a tyre points to.

Source: common practice, as tyre makers' wear charts agree on it; a hint where to measure next, never a verdict.
"""

EVEN = "even"
INNER = "inner shoulder: camber leaning in, toe out, worn joints or sagging springs - measure the geometry"
OUTER = "outer shoulder: camber leaning out, toe in, or hard cornering - measure the geometry"
SHOULDERS = "both shoulders: pressure too low, or overloaded - check pressure and load"
MIDDLE = "middle: pressure too high for the load, or hard pulling away - check pressure"


def wear_pattern(inner: float, middle: float, outer: float, even_within: float) -> str:
    """Where the tread is worn, and what that points to; all depths in one unit, new tread of even depth."""
    if max(inner, middle, outer) - min(inner, middle, outer) <= even_within:
        return EVEN
    across = inner - outer
    crown = middle - (inner + outer) / 2
    if abs(across) > abs(crown):
        return INNER if across < 0 else OUTER
    return SHOULDERS if crown > 0 else MIDDLE
