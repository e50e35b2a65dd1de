"""Greatest resistance of copper conductors by their nominal size (IEC 60228, plain copper at 20 Cel)."""

from baycard.measure.errors import MeasureError

SIZES_MM2 = (0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0)
STIFF = (36.0, 24.5, 18.1, 12.1, 7.41, 4.61, 3.08, 1.83, 1.15, 0.727, 0.524, 0.387)
FLEXIBLE = (39.0, 26.0, 19.5, 13.3, 7.98, 4.95, 3.30, 1.91, 1.21, 0.780, 0.554, 0.386)
CLASSES = {"1": STIFF, "2": STIFF, "5": FLEXIBLE, "6": FLEXIBLE}


def max_resistance(conductor_class: str, size_mm2: float) -> float:
    """In Ohm/km. The size is a name and no measured area. Raises MeasureError `outside-domain` outside the table."""
    if conductor_class not in CLASSES or size_mm2 not in SIZES_MM2:
        sizes = " ".join(f"{size:g}" for size in SIZES_MM2)
        raise MeasureError("outside-domain", f"the table has classes 1 2 5 6 and sizes {sizes} mm2")
    return CLASSES[conductor_class][SIZES_MM2.index(size_mm2)]
