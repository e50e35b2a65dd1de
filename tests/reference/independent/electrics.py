"""Electrics and engines: circuits solved as matrices, tables by numpy, quantities by pint."""

from typing import Any

import numpy as np

from tests.reference.independent.table import Q, kelvin, rows

PINT = "the same sum with pint quantities"
NODES = "node equations solved with numpy.linalg"
IEC60063 = "IEC 60063: 1.0 1.1 1.2 1.3 1.5 1.6 1.8 2.0 2.2 2.4 2.7 3.0 3.3 3.6 3.9 4.3 4.7 5.1 5.6 6.2 6.8 7.5 8.2 9.1"
E24 = np.array([float(one) for one in IEC60063.split(": ")[1].split()])
GEOMETRIC = "numpy.geomspace in 39 steps from 0.46 in (4/0) to 0.005 in (36), ASTM B258"
COLOURS = "IEC 60062 colour code, by hand"


def nearest(resistance: Any, steps: Any) -> Any:
    """The value of a series nearest to a resistance."""
    every = np.outer(10.0 ** np.arange(-2, 8), steps).ravel()
    ohms = resistance.to("ohm").m
    return Q(float(every[np.argmin(np.abs(every - ohms))]), "ohm")


def parallel(resistors: Any) -> Any:
    """Resistance between two nodes: the current that one volt drives."""
    conductance = sum(np.linalg.solve(np.diag(resistors.to("ohm").m), np.ones(len(resistors))))
    return Q(1 / conductance, "ohm")


def divided(upper: Any, lower: Any) -> float:
    """Voltage in the middle for one volt, from the two equations of the loop."""
    up, low = upper.to("ohm").m, lower.to("ohm").m
    return float(np.linalg.solve([[1.0, 1.0], [low, -up]], [1.0, 0.0])[1])


def copper(length: Any, area: Any, temperature: Any) -> Any:
    """Resistance of annealed copper by IEC 60028."""
    warm = 1 + 0.00393 * (kelvin(temperature).m - 293.15)
    return Q(1.7241e-8, "ohm*m") * warm * length / area


def awg_area(awg: Any) -> Any:
    """Area from the geometric series of diameters between two defined sizes."""
    inches = np.geomspace(0.46, 0.005, 40)
    return np.pi / 4 * Q(float(inches[int(awg.m) + 3]), "inch") ** 2


def intake(displacement: Any, speed: Any, map: Any, T: Any) -> Any:
    """Mass that fills the engine's volume every second turn."""
    return map / (Q(287.05, "J/kg/K") * kelvin(T)) * displacement * speed / 2


def _air(displacement: Any, speed: Any, ve: Any, map: Any, T: Any) -> Any:
    return ve * intake(displacement, speed, map, T)


def _filling(displacement: Any, speed: Any, air_flow: Any, map: Any, T: Any) -> Any:
    return (air_flow / intake(displacement, speed, map, T)).to("")


def _table(R: Any, resistances: Any, levels: Any) -> Any:
    return Q(float(np.interp(R.to("ohm").m, resistances.to("ohm").m, levels.to("percent").m)), "percent")


def _level(R: Any, R_empty: Any, R_full: Any) -> Any:
    ends = np.array([[R_empty.to("ohm").m, 1.0], [R_full.to("ohm").m, 1.0]])
    slope, start = np.linalg.solve(ends, [0.0, 100.0])
    return Q(float(slope * R.to("ohm").m + start), "percent")


def _substitute(level: Any, R_empty: Any, R_full: Any) -> Any:
    wanted = np.interp(level.to("percent").m, [0, 100], [R_empty.to("ohm").m, R_full.to("ohm").m])
    return nearest(Q(float(wanted), "ohm"), E24)


CYLINDERS = "readings [1180, 1210, 1150, 1195] kPa", "readings [170, 120, 165, 172] [psi]"
ELECTRIC = [
    *rows(
        "voltage-drop-cable-mm2",
        "V",
        PINT,
        lambda resistance_per_km, length, current: resistance_per_km * length * current,
        "resistance_per_km 3.3 Ohm/km; length 20 [ft_i]; current 15 A",
    ),
    *rows("awg-area", "mm2", GEOMETRIC, awg_area, "awg 12 {AWG}", "awg 18 {AWG}", "awg -3 {AWG}"),
    *rows(
        "conductor-resistance",
        "Ohm",
        PINT,
        lambda resistivity, length, area: resistivity * length / area,
        "resistivity 0.017241 Ohm.mm2/m; length 6 m; area 2.5 mm2",
        "resistivity 0.0282 Ohm.mm2/m; length 10 [ft_i]; area 16 mm2",
    ),
    *rows(
        "resistance-at-temperature",
        "Ohm",
        PINT,
        lambda R20, alpha20, T: R20 + R20 * alpha20 * (kelvin(T) - Q(293.15, "K")),
        "R20 100 Ohm; alpha20 0.00385 /K; T 85 Cel",
        "R20 2 mOhm; alpha20 0.00393 /K; T 176 [degF]",
    ),
    *rows(
        "temperature-from-resistance",
        "Cel",
        PINT,
        lambda R, R20, alpha20: Q(293.15, "K") + (R - R20) / (R20 * alpha20),
        "R 1.2 Ohm; R20 1 Ohm; alpha20 0.00393 /K",
        "R 119 Ohm; R20 100 Ohm; alpha20 0.0038 /K",
    ),
    *rows(
        "wire-run-length-derated",
        "[ft_i]",
        "copper has no resistance left at -234.5 Cel (straight line, numpy.interp)",
        lambda L1, T2: L1 / np.interp(T2.to("degC").m, [-234.5, 20, 274.5], [0, 1, 2]),
        "L1 20 [ft_i]; T2 80 Cel",
        "L1 5 m; T2 120 Cel",
    ),
    *rows(
        "ohms-law-resistance",
        "Ohm",
        PINT,
        lambda voltage, current: voltage / current,
        "voltage 240 mV; current 80 A",
        "voltage 12.4 V; current 5 mA",
    ),
    *rows(
        "joint-power-loss",
        "W",
        PINT,
        lambda drop, current: (drop / current) * current**2,
        "drop 0.5 V; current 120 A",
        "drop 350 mV; current 20 A",
    ),
    *rows("parallel-resistance", "Ohm", NODES, parallel, "resistors [100, 220, 470] Ohm", "resistors [2, 3] kOhm"),
    *rows(
        "e24-nearest",
        "Ohm",
        IEC60063,
        lambda resistance: nearest(resistance, E24),
        "resistance 144 Ohm",
        "resistance 9.6 kOhm",
        "resistance 3.15 Ohm",
    ),
    *rows(
        "e96-nearest",
        "Ohm",
        "IEC 60063, E96 by numpy.geomspace rounded to three digits",
        lambda resistance: nearest(resistance, np.round(np.geomspace(1, 10, 97)[:96], 2)),
        "resistance 144 Ohm",
        "resistance 9.6 kOhm",
        "resistance 3.15 Ohm",
    ),
    *rows(
        "battery-ocv-temperature-corrected-published-table",
        "V",
        "0.024 V for each 10 degF from 80 degF (pint)",
        lambda ocv, T_f: ocv + Q(0.0024, "V/delta_degF") * (T_f - Q(80, "degF")),
        "ocv 12.5 V; T_f 10 Cel",
    ),
    *rows(
        "hydrometer-temperature-corrected",
        "1",
        "0.004 for each 10 degF from 80 degF (pint)",
        lambda sg, T_f: float(sg.m + 0.0004 * (T_f - Q(80, "degF")).to("delta_degF").m),
        "sg 1.25; T_f 0 Cel",
    ),
    *rows(
        "battery-cell-emf-from-sg",
        "V",
        "numpy.polyval([1, 0.84]) for each of six cells",
        lambda sg: Q(6 * float(np.polyval([1, 0.84], sg.m)), "V"),
        "sg 1.24",
    ),
    *rows(
        "parasitic-drain-days",
        "d",
        PINT,
        lambda capacity, soc_start, soc_end, drain: capacity * (soc_start - soc_end) / drain,
        "capacity 70 A.h; soc_start 95 %; soc_end 50 %; drain 0.08 A",
    ),
    *rows(
        "sender-level-percent",
        "%",
        "two linear equations solved with numpy.linalg",
        _level,
        "R 100 Ohm; R_empty 3 Ohm; R_full 180 Ohm",
        "R 60 Ohm; R_empty 240 Ohm; R_full 33 Ohm",
    ),
    *rows(
        "sender-level-from-table",
        "%",
        "numpy.interp",
        _table,
        "R 100 Ohm; resistances [5, 60, 110, 180] Ohm; levels [0, 30, 60, 100] %",
        "R 33 Ohm; resistances [33, 103, 240] Ohm; levels [100, 50, 0] %",
        "R 0.2 kOhm; resistances [33, 103, 240] Ohm; levels [100, 50, 0] %",
    ),
    *rows(
        "substitution-resistor",
        "Ohm",
        IEC60063,
        _substitute,
        "level 50 %; R_empty 3 Ohm; R_full 180 Ohm",
        "level 0 %; R_empty 240 Ohm; R_full 33 Ohm",
        "level 75 %; R_empty 10 Ohm; R_full 180 Ohm",
        "level 50 %; R_empty 0 Ohm; R_full 90 Ohm",
    ),
    *rows(
        "expected-voltage-drop",
        "V",
        "IEC 60028 copper with pint quantities",
        lambda length, area, current, temperature: copper(length, area, temperature) * current,
        "length 5 m; area 2.5 mm2; current 15 A; temperature 20 Cel",
        "length 30 [ft_i]; area 16 mm2; current 120 A; temperature 60 Cel",
        "length 2 m; area 0.75 mm2; current 800 mA; temperature 104 [degF]",
    ),
    *rows(
        "expected-voltage-drop-load",
        "V",
        "IEC 60028 copper with pint quantities",
        lambda length, area, power, voltage, temperature: copper(length, area, temperature) * power / voltage,
        "length 8 m; area 1.5 mm2; power 55 W; voltage 12.8 V; temperature 20 Cel",
        "length 4 m; area 6 mm2; power 0.6 kW; voltage 13.5 V; temperature 40 Cel",
        "length 20 [ft_i]; area 2.5 mm2; power 130 W; voltage 27 V; temperature 20 Cel",
    ),
    *rows(
        "divider-ratio",
        "1",
        NODES,
        divided,
        "upper 10 kOhm; lower 10 kOhm",
        "upper 33 kOhm; lower 4.7 kOhm",
        "upper 220 Ohm; lower 1 kOhm",
    ),
    *rows(
        "divider-lower-resistor",
        "Ohm",
        NODES,
        lambda upper, ratio: Q(float(np.linalg.solve([[1 - ratio.m]], [upper.to("ohm").m * ratio.m])[0]), "ohm"),
        "upper 10 kOhm; ratio 0.5",
        "upper 33 kOhm; ratio 0.125",
        "upper 220 Ohm; ratio 0.8",
    ),
]
BANDS = [
    ("4.7 kOhm", ["yellow", "violet", "red"]),
    ("100 Ohm", ["brown", "black", "brown"]),
    ("1.5 Ohm", ["brown", "green", "gold"]),
]
ENGINE = [
    *rows(
        "compression-lowest-over-highest-percent",
        "%",
        "numpy.ptp",
        lambda readings: Q(float(1 - np.ptp(readings.m) / np.max(readings.m)), ""),
        *CYLINDERS,
    ),
    *rows(
        "compression-within-75-percent",
        "{bool}",
        "every pair compared (numpy)",
        lambda readings: bool(np.all(np.divide.outer(readings.m, readings.m) >= 0.75)),
        *CYLINDERS,
    ),
    *rows(
        "compression-spread-percent",
        "%",
        "numpy.ptp",
        lambda readings: Q(float(np.ptp(readings.m) / np.max(readings.m)), ""),
        *CYLINDERS,
    ),
    *rows(
        "speed-density-air-flow",
        "g/s",
        PINT,
        _air,
        "displacement 1.6 L; speed 2500 {rev}/min; ve 85 %; map 95 kPa; T 35 Cel",
        "displacement 302 [cin_i]; speed 1800 {rev}/min; ve 75 %; map 12 [psi]; T 100 [degF]",
    ),
    *rows(
        "volumetric-efficiency-from-air-flow",
        "%",
        PINT,
        _filling,
        "displacement 1.6 L; speed 2500 {rev}/min; air_flow 30 g/s; map 95 kPa; T 35 Cel",
        "displacement 2 L; speed 3000 {rev}/min; air_flow 170 kg/h; map 14 [psi]; T 300 K",
    ),
    *rows(
        "boost-pressure-ratio",
        "1",
        PINT,
        lambda boost_gauge, ambient: ((boost_gauge + ambient) / ambient).to("").m,
        "boost_gauge 17 [psi]; ambient 101.325 kPa",
    ),
    *rows(
        "fuel-trim-total",
        "%",
        PINT,
        lambda short_term, long_term: short_term + long_term,
        "short_term 4.7 %; long_term -12.5 %",
    ),
    *rows(
        "fuel-trim-total-multiplicative",
        "%",
        "numpy.prod of the factors",
        lambda short_term, long_term: Q(float(np.prod([1 + short_term.to("").m, 1 + long_term.to("").m]) - 1), ""),
        "short_term 4.7 %; long_term -12.5 %",
    ),
    *rows(
        "leakdown-within-25-percent",
        "{bool}",
        "FAA AC 43.13-1B, 8-14: 60 of 80 psi is the least",
        lambda p_in, p_cyl: bool(p_cyl.to("psi").m / p_in.to("psi").m > 59.99 / 80),
        "p_in 80 [psi]; p_cyl 60 [psi]",
        "p_in 80 [psi]; p_cyl 58 [psi]",
        "p_in 6 bar; p_cyl 5.1 bar",
    ),
    *rows(
        "air-flow-meter-deviation",
        "%",
        PINT,
        lambda measured, expected: measured / expected - 1,
        "measured 20 g/s; expected 25 g/s",
        "measured 110 kg/h; expected 28 g/s",
        "measured 31 g/s; expected 30 g/s",
    ),
]
EXAMPLES = [
    *ELECTRIC,
    *ENGINE,
    *(
        one
        for text, colours in BANDS
        for one in rows(
            "resistor-colour-bands",
            "{list}",
            COLOURS,
            lambda resistance, colours=colours: colours,
            f"resistance {text}",
        )
    ),
]
