"""Codes and sizes as others read them: python-OBD and vininfo (recorded), printed tables, and plain fractions."""

import math
from fractions import Fraction
from typing import Any

from tests.reference.independent.table import Example, Q, rows, words

OBD = "python-OBD 0.7.3, decoders.status and decoders.dtc"
VININFO = "vininfo 1.11.0"
TYRE_BOOK = "size designation of ISO 4000-1 and UN R30, read by hand"
FMVSS = "49 CFR 571.116 S5.1.1 and S5.1.2, from memory"
CHART = "tyre makers' wear charts: what the place of the wear points to, from memory"
INNER = "inner shoulder: camber leaning in, toe out, worn joints or sagging springs - measure the geometry"
OUTER = "outer shoulder: camber leaning out, toe in, or hard cornering - measure the geometry"
SHOULDERS = "both shoulders: pressure too low, or overloaded - check pressure and load"
MIDDLE = "middle: pressure too high for the load, or hard pulling away - check pressure"
SPARK = ["misfire", "fuel-system", "components", "catalyst", "evaporative", "o2-sensor", "o2-heater"]
COMPRESSION = ["nmhc-catalyst", "nox-scr", "boost-pressure", "exhaust-gas-sensor", "pm-filter", "egr-vvt"]


def hexadecimal(method: str, name: str, unit: str, *pairs: tuple[str, Any]) -> list[Example]:
    """Examples of python-OBD for bytes."""
    return [Example(method, {name: {"value": given, "unit": "{hex}"}}, value, unit, 0, OBD) for given, value in pairs]


def vin(method: str, unit: str, *pairs: tuple[dict[str, str], Any]) -> list[Example]:
    """Examples of vininfo."""
    return words(method, unit, VININFO, *pairs, basis="computed-library")


def sizes() -> list[Example]:
    """Every part of three sizes."""
    made = []
    for text, parts in (
        ("205/55 R16 91V", (205, 55, 16, 91, "V")),
        ("235/65 R16C 115/113R", (235, 65, 16, 115, "R")),
        ("P215/70R15 97S", (215, 70, 15, 97, "S")),
    ):
        units = "mm", "%", "[in_i]", "1", "{text}"
        names = "width", "aspect", "rim", "load-index", "speed-symbol"
        for name, unit, value in zip(names, units, parts, strict=True):
            made += words(f"tyre-size-{name}", unit, TYRE_BOOK, ({"designation": text}, value))
        width, aspect, rim, load, speed = parts
        made += words(
            "tyre-size",
            "{tyre}",
            TYRE_BOOK,
            (
                {"designation": text},
                {
                    "width_mm": width,
                    "aspect_percent": aspect,
                    "build": "R",
                    "rim_in": rim,
                    "light_truck": "C" in text,
                    "load_index": load,
                    "load_index_twin": 113 if "/113" in text else None,
                    "speed_symbol": speed,
                },
            ),
        )
    return made


def fluids() -> list[Example]:
    """Boiling points of the standard, which it states in degrees Celsius and Fahrenheit."""
    method = "brake-fluid-minimum-boiling-point"
    read = words(
        method,
        "[degF]",
        "NHTSA interpretation 12089 of 24 July 1996 on 49 CFR 571.116, S5.1.2: 311 degrees F",
        ({"grade": "DOT 4", "state": "wet"}, 311),
        basis="published-read",
    )
    pairs = [
        ({"grade": grade, "state": state}, degrees)
        for grade, state, degrees in (
            ("DOT 3", "dry", 401),
            ("DOT 3", "wet", 284),
            ("DOT 4", "dry", 446),
            ("DOT 5.1", "dry", 500),
            ("DOT 5.1", "wet", 356),
            ("DOT 5", "dry", 500),
            ("DOT 5", "wet", 356),
        )
    ]
    return read + words(method, "[degF]", FMVSS, *pairs)


def _pattern(text: str) -> Any:
    return lambda inner, middle, outer, even_within: text


def close(examples: list[Example], rtol: float) -> list[Example]:
    """The same examples with a tolerance."""
    return [Example(one.method, one.inputs, one.value, one.unit, rtol, one.source, one.basis) for one in examples]


EXAMPLES = [
    *sizes(),
    *close(fluids(), 0.002),
    *rows(
        "tread-wear-pattern",
        "{text}",
        CHART,
        _pattern(INNER),
        "inner 1.9 mm; middle 4.6 mm; outer 4.8 mm; even_within 1.6 mm",
    ),
    *rows(
        "tread-wear-pattern",
        "{text}",
        CHART,
        _pattern(OUTER),
        "inner 5 mm; middle 4.5 mm; outer 2 mm; even_within 1.6 mm",
    ),
    *rows(
        "tread-wear-pattern",
        "{text}",
        CHART,
        _pattern(SHOULDERS),
        "inner 3 mm; middle 5.5 mm; outer 3.2 mm; even_within 1.6 mm",
    ),
    *rows(
        "tread-wear-pattern",
        "{text}",
        CHART,
        _pattern(MIDDLE),
        "inner 5 mm; middle 2.5 mm; outer 5.2 mm; even_within 1.6 mm",
    ),
    *rows(
        "tread-wear-pattern",
        "{text}",
        CHART,
        _pattern("even"),
        "inner 5 mm; middle 5.4 mm; outer 5.2 mm; even_within 1.6 mm",
    ),
    *words(
        "disc-minimum-from-stamp",
        "mm",
        "stamps as they stand on discs, read by hand",
        ({"stamp": "MIN TH 22.4 mm"}, 22.4),
        ({"stamp": "Min. Th. 9,0mm"}, 9),
        ({"stamp": "MIN THK 1.024 IN"}, 26.0096),
        ({"stamp": "minimum thickness: 20"}, 20),
    ),
    *words(
        "inch-fraction",
        "[in_i]",
        "fractions.Fraction",
        *(
            ({"written": text}, float(Fraction(whole) + Fraction(part)))
            for text, whole, part in (
                ("7/32", 0, "7/32"),
                ("1 3/8", 1, "3/8"),
                ('2-5/16"', 2, "5/16"),
                ("0,5", 0, "1/2"),
            )
        ),
        basis="computed-library",
    ),
    *vin(
        "vin-parts",
        "{list}",
        ({"vin": "1HGCM82633A004352"}, ["1HG", "CM8263", "3A004352"]),
        ({"vin": "1M8GDM9AXKP042788"}, ["1M8", "GDM9AX", "KP042788"]),
        ({"vin": "5gzcz43d13s812715"}, ["5GZ", "CZ43D1", "3S812715"]),
    ),
    *vin("vin-model-year-candidates", "{list}", ({"pos10": "J"}, [1988, 2018]), ({"pos10": "Y"}, [2000, 2030])),
    *vin("vin-model-year-us-light", "a", ({"pos7": "6", "pos10": "3"}, 2003)),
    *words(
        "vin-model-year-us-light",
        "a",
        "49 CFR 565.15 Table VII: A is 2010 where position 7 is a letter",
        ({"pos7": "B", "pos10": "A"}, 2010),
    ),
    *words(
        "vin-invalid-positions",
        "{list}",
        "49 CFR 565.13(g): letters I, O and Q are not used",
        ({"vin": "WDIZZZ20QO1A00001"}, [3, 9, 10]),
    ),
    *hexadecimal("readiness-ignition-type", "bytes", "{text}", ("83076510", "spark"), ("810EEB69", "compression")),
    *hexadecimal("readiness-supported-monitors", "bytes", "{list}", ("83076510", SPARK), ("0008EB00", COMPRESSION)),
    *hexadecimal(
        "readiness-incomplete-monitors",
        "bytes",
        "{list}",
        ("0007E5E4", ["evaporative", "o2-sensor", "o2-heater", "egr-vvt"]),
    ),
    *hexadecimal("readiness-incomplete-count-noncontinuous", "bytes", "1", ("810EEB69", 4)),
    *hexadecimal("readiness-mil", "bytes", "{bool}", ("83076510", True)),
    *hexadecimal("readiness-dtc-count", "bytes", "1", ("83076510", 3)),
    *hexadecimal("dtc-list-can", "payload", "{list}", ("430203012344", ["P0301", "P2344"])),
    *hexadecimal(
        "dtc-list-noncan",
        "payload",
        "{list}",
        ("4301230456C100", ["P0123", "P0456", "U0100"]),
        ("43030123440000", ["P0301", "P2344"]),
    ),
    *words(
        "dtc-encode",
        "{hex}",
        OBD + ", turned round",
        ({"code": "P0123"}, "0123"),
        ({"code": "U0158"}, "C158"),
        basis="computed-library",
    ),
    *rows(
        "readiness-epa-allowed",
        "1",
        "EPA420-R-01-015: two for 1996 to 2000, one from 2001",
        lambda model_year: 2.0 if model_year.m <= 2000 else 1.0,
        "model_year 1998 a",
        "model_year 2000 a",
        "model_year 2014 a",
    ),
    *(
        Example(
            "temperature-difference-convert",
            {
                "value": {"value": value, "unit": "1"},
                "from": {"value": a, "unit": "{text}"},
                "to": {"value": b, "unit": "{text}"},
            },
            float(Q(float(value), one).to(two).m),
            b,
            1e-12,
            "pint, delta units",
        )
        for value, a, b, one, two in (
            (18, "[degF]", "K", "delta_degF", "kelvin"),
            (12, "Cel", "[degF]", "delta_degC", "delta_degF"),
        )
    ),
    *(
        Example(
            "fuel-economy-convert",
            {
                "value": {"value": value, "unit": "1"},
                "from": {"value": a, "unit": "{text}"},
                "to": {"value": b, "unit": "{text}"},
            },
            value_out,
            b,
            1e-9,
            "pint, reciprocal",
        )
        for value, a, b, value_out in (
            (30, "[mi_i]/[gal_us]", "L/(100.km)", 100 * float((1 / Q(30.0, "mile/gallon")).to("liter/km").m)),
        )
    ),
    *words(
        "crest-factor-ideal",
        "1",
        "square root of three, 1.7320508075688772 (math.sqrt)",
        ({"waveform": "triangle"}, math.sqrt(3)),
        basis="computed-library",
    ),
]
