"""Tyres, geometry, play, wear and torque: vectors and polynomials of numpy, lengths of pint, dates of datetime."""

from datetime import date, datetime
from typing import Any

import numpy as np

from tests.reference.independent.table import Q, rows, words

PINT = "the same sum with pint quantities"
VECTORS = "angle of a vector (numpy.angle)"
CALENDAR = "49 CFR 574.5 with the week of datetime.strptime('%Y %U %w'), which counts Sundays too"
SIZES = "205/55 R16 against 225/45 R17 and the like, with pint quantities"


def angle(dial: Any, radius: Any) -> Any:
    """The angle of a point that lies so far away and so far along."""
    return Q(float(np.angle(radius.to("mm").m + 1j * dial.to("mm").m)), "radian")


def slant(toe: Any, diameter: Any) -> Any:
    """The angle whose opposite side and hypotenuse are known."""
    along = np.sqrt(diameter.to("mm").m ** 2 - toe.to("mm").m ** 2)
    return angle(toe, Q(float(along), "mm"))


def diameter(width: Any, aspect: Any, rim: Any) -> Any:
    """Rim and two side walls."""
    return rim + width * aspect + width * aspect


def _both(**size: Any) -> tuple[Any, Any]:
    return tuple(diameter(*(size[f"{name}_{one}"] for name in ("width", "aspect", "rim"))) for one in ("old", "new"))


def _line(t1: Any, t2: Any, odo1: Any, odo2: Any) -> Any:
    return np.polyfit([odo1.to("km").m, odo2.to("km").m], [t1.to("mm").m, t2.to("mm").m], 1)


def _left(t1: Any, t2: Any, odo1: Any, odo2: Any, t_min: Any) -> Any:
    line = np.poly1d(_line(t1, t2, odo1, odo2))
    return Q(float((line - t_min.to("mm").m).roots[0] - odo2.to("km").m), "km")


def _setting(setting: Any, length: Any, extension: Any, angle: Any) -> Any:
    at = length.to("m").m + extension.to("m").m * np.exp(1j * angle.to("radian").m)
    return Q(float(at.real * (setting / length).to("N").m), "N*m")


def _age(code: str, on: str) -> float:
    week, year = int(code[:2]), 2000 + int(code[2:])
    made = datetime.strptime(f"{year} {week} 0", "%Y %U %w").date()
    return (date.fromisoformat(on) - made).days / 365.2425


CHANGE = (
    "width_old 205 mm; aspect_old 55 %; rim_old 16 [in_i]; width_new 225 mm; aspect_new 45 %; rim_new 17 [in_i]",
    "width_old 175 mm; aspect_old 65 %; rim_old 14 [in_i]; width_new 195 mm; aspect_new 50 %; rim_new 15 [in_i]",
)
WALLS = "width 215 mm; aspect 65 %"
SIZE = (
    "width 215 mm; aspect 65 %; rim 16 [in_i]",
    "width 265 mm; aspect 70 %; rim 17 [in_i]",
    "width 155 mm; aspect 80 %; rim 13 [in_i]",
)
VISITS = "t1 9.5 mm; t2 7.1 mm; odo1 30000 [mi_i]; odo2 42000 [mi_i]"
CODES = ("4725", "2026-11-20"), ("0119", "2026-11-20"), ("5309", "2020-01-15")


def ages() -> list[Any]:
    """Ages by both methods."""
    made = []
    for code, on in CODES:
        made += words(
            "tin-age-years", "a", CALENDAR, ({"code": code, "date": on}, _age(code, on)), basis="computed-library"
        )
        (typed,) = words("tyre-age-on-date", "a", CALENDAR, ({"date": on}, _age(code, on)), basis="computed-library")
        typed.inputs["made"] = {"value": int(code), "unit": "1"}  # type: ignore[index]
        made.append(typed)
    return made


TYRES = [
    *rows(
        "wheel-rotation-frequency",
        "Hz",
        PINT,
        lambda speed, width, aspect, rim: speed / (np.pi * diameter(width, aspect, rim)),
        *(f"speed 80 km/h; {one}" for one in SIZE),
    ),
    *rows(
        "shaft-rotation-frequency",
        "Hz",
        PINT,
        lambda speed, width, aspect, rim, ratio: ratio * speed / (np.pi * diameter(width, aspect, rim)),
        *(f"speed 55 [mi_i]/h; {one}; ratio 3.9" for one in SIZE),
    ),
    *rows("tyre-outer-diameter-inch", "[in_i]", PINT, diameter, *SIZE[:2]),
    *rows("tyre-sidewall-height", "mm", PINT, lambda width, aspect: (diameter(width, aspect, Q(0.0, "mm"))) / 2, WALLS),
    *rows("tyre-circumference", "mm", PINT, lambda width, aspect, rim: np.pi * diameter(width, aspect, rim), SIZE[0]),
    *rows(
        "tyre-revs-per-km",
        "{rev}/km",
        PINT,
        lambda width, aspect, rim: 1 / (np.pi * diameter(width, aspect, rim)),
        SIZE[0],
    ),
    *rows("tyre-speedometer-ratio", "1", SIZES, lambda **size: (_both(**size)[0] / _both(**size)[1]).to("").m, *CHANGE),
    *rows(
        "tyre-true-speed",
        "km/h",
        SIZES,
        lambda indicated, **size: indicated / _both(**size)[0] * _both(**size)[1],
        CHANGE[0] + "; indicated 50 [mi_i]/h",
    ),
    *rows(
        "tyre-diameter-change-percent",
        "%",
        SIZES,
        lambda **size: (_both(**size)[1] - _both(**size)[0]) / _both(**size)[0],
        CHANGE[1],
    ),
    *rows(
        "tyre-load-share",
        "%",
        "index 91 is 615 kg, 115 is 1215 kg, 82 is 475 kg (UN R30)",
        lambda load_index, tyres, axle_load: (
            axle_load.to("kg").m / ({91: 615, 115: 1215, 82: 475}[load_index.m] * tyres.m) * Q(1.0, "")
        ),
        "load_index 91; tyres 2; axle_load 1080 kg",
        "load_index 115; tyres 2; axle_load 5500 [lb_av]",
        "load_index 82; tyres 2; axle_load 990 kg",
    ),
    *rows(
        "tyre-axle-capacity",
        "kg",
        "index 98 is 750 kg, 91 is 615 kg (UN R30)",
        lambda load_index, tyres: Q({98: 750.0, 91: 615.0}[load_index.m] * tyres.m, "kg"),
        "load_index 98; tyres 2",
        "load_index 91; tyres 4",
    ),
    *rows(
        "tread-spread",
        "mm",
        "numpy.ptp",
        lambda depths: Q(float(np.ptp(depths.to("mm").m)), "mm"),
        "depths [1.9, 4.6, 4.8] mm",
        "depths [5, 6, 5.5] mm",
        "depths [0.2, 0.25, 0.21] [in_i]",
    ),
    *rows("tread-depth-from-32nds", "mm", PINT, lambda n: n / 32 * Q(1.0, "inch"), "n 2", "n 4", "n 10.5"),
    *ages(),
]
GEOMETRY = [
    *rows(
        "toe-angle-from-mm",
        "deg",
        VECTORS,
        slant,
        "toe 1.5 mm; diameter 410 mm",
        "toe 0.0625 [in_i]; diameter 16 [in_i]",
    ),
    *rows(
        "toe-angle-arcmin-from-mm",
        "'",
        VECTORS,
        slant,
        "toe 1.5 mm; diameter 410 mm",
    ),
    *rows(
        "toe-mm-from-angle",
        "mm",
        "imaginary part of numpy.exp(1j angle)",
        lambda angle, diameter: diameter * float(np.exp(1j * angle.to("radian").m).imag),
        "angle 12 '; diameter 410 mm",
    ),
    *rows(
        "total-toe-per-wheel-angle",
        "deg",
        VECTORS,
        lambda track_rear_edge, track_front_edge, diameter: slant((track_rear_edge - track_front_edge) / 2, diameter),
        "track_rear_edge 1502 mm; track_front_edge 1499 mm; diameter 400 mm",
    ),
    *rows(
        "total-toe",
        "deg",
        PINT,
        lambda left, right: left + right,
        "left 6 '; right 9 '",
        "left 0.1 deg; right -0.05 deg",
    ),
    *rows(
        "camber-from-two-readings",
        "deg",
        VECTORS,
        lambda gap_bottom, gap_top, height: angle(gap_bottom - gap_top, height),
        "gap_bottom 12 mm; gap_top 18 mm; height 400 mm",
    ),
    *rows(
        "thrust-angle",
        "deg",
        "numpy.mean of the headings",
        lambda rear_right_toe, rear_left_toe: Q(
            float(np.mean([rear_right_toe.to("deg").m, -rear_left_toe.to("deg").m])), "deg"
        ),
        "rear_right_toe 10 '; rear_left_toe 2 '",
    ),
    *rows(
        "ride-height-difference",
        "mm",
        PINT,
        lambda left, right: right - left,
        "left 370 mm; right 382 mm",
        "left 14.5 [in_i]; right 14.25 [in_i]",
        "left 36.5 cm; right 365 mm",
    ),
    *rows(
        "clearance-at-full-travel",
        "mm",
        "numpy.polyval along the travel",
        lambda at_rest, travel_left, motion_ratio: Q(
            float(np.polyval([-motion_ratio.m, at_rest.to("mm").m], travel_left.to("mm").m)), "mm"
        ),
        "at_rest 25 mm; travel_left 80 mm; motion_ratio 0.25",
        "at_rest 1 [in_i]; travel_left 70 mm; motion_ratio 0.5",
        "at_rest 12 mm; travel_left 60 mm; motion_ratio 0",
    ),
    *rows(
        "play-angle-from-dial",
        "deg",
        VECTORS,
        angle,
        "dial 0.3 mm; radius 190 mm",
        "dial 0.012 [in_i]; radius 7.5 [in_i]",
    ),
    *rows(
        "play-scaled-to-radius",
        "mm",
        PINT,
        lambda dial, radius_measured, radius_target: dial / radius_measured * radius_target,
        "dial 0.3 mm; radius_measured 190 mm; radius_target 70 mm",
    ),
    *rows(
        "runout-tir",
        "mm",
        "numpy.ptp",
        lambda readings: Q(float(np.ptp(readings.to("mm").m)), "mm"),
        "readings [0.02, 0.05, -0.01, 0.03] mm",
    ),
    *rows("eccentricity-from-tir", "mm", PINT, lambda tir: tir / 2, "tir 0.6 mm", "tir 0.02 [in_i]"),
    *rows("degrees-to-arcmin", "'", PINT, lambda angle: angle, "angle 0.35 deg", "angle 0.01 rad"),
    *rows(
        "torque-applied-with-extension",
        "N.m",
        "lever arm as a complex number (numpy.exp)",
        _setting,
        "setting 90 N.m; length 450 mm; extension 60 mm; angle 30 deg",
    ),
    *rows(
        "torque-from-force",
        "N.m",
        PINT,
        lambda force, length: force * length,
        "force 250 N; length 400 mm",
        "force 40 [lbf_av]; length 18 [in_i]",
        "force 0.3 kN; length 0.6 m",
    ),
    *rows(
        "thread-advance-from-angle",
        "mm",
        PINT,
        lambda pitch, angle: pitch * (angle / Q(360.0, "degree")),
        "pitch 1.25 mm; angle 90 deg",
    ),
]
WEAR = [
    *rows(
        "wear-rate-per-1000-km",
        "mm/(1000.km)",
        "numpy.polyfit",
        lambda **two: Q(float(-_line(**two)[0]), "mm/km"),
        VISITS,
    ),
    *rows("wear-remaining-distance", "km", "root of numpy.polyfit", _left, VISITS + "; t_min 2 mm"),
    *rows(
        "wear-rate-regression",
        "mm/(1000.km)",
        "numpy.polyfit",
        lambda odo, thickness: Q(float(-np.polyfit(odo.to("km").m, thickness.to("mm").m, 1)[0]), "mm/km"),
        "odo [10000, 20000, 32000, 41000] km; thickness [9.8, 8.9, 7.7, 6.9] mm",
        "odo [20000, 30000, 40000] [mi_i]; thickness [0.35, 0.31, 0.26] [in_i]",
    ),
    *rows(
        "disc-thickness-variation",
        "um",
        "numpy.ptp",
        lambda readings: Q(float(np.ptp(readings.to("mm").m)), "mm"),
        "readings [21.953, 21.961, 21.949, 21.958] mm",
        "readings [0.8641, 0.8646, 0.8643] [in_i]",
    ),
    *rows(
        "wear-percent-used",
        "%",
        "numpy.interp",
        lambda t_new, t_now, t_min: Q(
            float(np.interp(t_now.to("mm").m, [t_min.to("mm").m, t_new.to("mm").m], [1, 0])), ""
        ),
        "t_new 12 mm; t_now 5 mm; t_min 2 mm",
    ),
    *rows(
        "brake-fluid-margin",
        "K",
        "49 CFR 571.116 S5.1.2 in degrees Fahrenheit, with pint quantities",
        lambda measured, lowest: measured.to("kelvin") - lowest.to("kelvin"),
        "measured 190 Cel; lowest 155 Cel",
        "measured 300 [degF]; lowest 140 Cel",
        "measured 150 Cel; lowest 155 Cel",
    ),
    *rows(
        "brake-effort-of-other-wheel",
        "%",
        "numpy.sort",
        lambda left, right: Q(float(np.divide(*np.sort([left.to("N").m, right.to("N").m]))), ""),
        "left 2400 N; right 2 kN",
        "left 1500 N; right 900 N",
    ),
    *rows(
        "lowest-reading",
        "mm",
        "numpy.sort",
        lambda readings: Q(float(np.sort(readings.to("mm").m)[0]), "mm"),
        "readings [3.1, 2.7, 2.9] mm",
        "readings [0.2, 0.18] [in_i]",
    ),
]
EXAMPLES = [*TYRES, *GEOMETRY, *WEAR]
