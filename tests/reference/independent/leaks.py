"""Leaks by pressure, drops, pools and levels, with quantities that carry their units through the sums."""

from typing import Any

import numpy as np
from scipy import constants

from tests.reference.independent.table import Q, kelvin, rows

GAS = "amount of gas n = pV/RT before and after (pint, scipy.constants.R)"
PINT = "the same sum with pint quantities"
R = Q(constants.R, "J/mol/K")
ATM = Q(constants.atm, "Pa")


def moles(p: Any, v: Any, t: Any) -> Any:
    """Amount of an ideal gas."""
    return p * v / (R * kelvin(t))


def _rate(volume: Any, p1: Any, p2: Any, time: Any) -> Any:
    t = Q(300.0, "K")
    return (moles(p1, volume, t) - moles(p2, volume, t)) * R * t / time


def _standard(lost: Any, time: Any, reference: Any) -> Any:
    return lost * R * reference / ATM / time


def _sccm(volume: Any, p1: Any, p2: Any, time: Any, T_gas: Any, T_ref: Any) -> Any:
    return _standard(moles(p1, volume, T_gas) - moles(p2, volume, T_gas), time, kelvin(T_ref))


def _litres(volume: Any, p1: Any, p2: Any, time: Any, temperature: Any) -> Any:
    lost = moles(p1, volume, temperature) - moles(p2, volume, temperature)
    return _standard(lost, time, Q(293.15, "K"))


def _litres_corrected(volume: Any, p1: Any, p2: Any, ambient: Any, T1: Any, T2: Any, time: Any) -> Any:
    lost = moles(p1 + ambient, volume, T1) - moles(p2 + ambient, volume, T2)
    return _standard(lost, time, Q(293.15, "K"))


def _drift(volume: Any, p1: Any, ambient: Any, T_start: Any, T_end: Any, time: Any) -> Any:
    held = moles(p1 + ambient, volume, T_start)
    p_end = held * R * kelvin(T_end) / volume
    return _standard(held - moles(p_end, volume, T_start), time, Q(293.15, "K"))


def _share(p1: Any, p2: Any, ambient: Any, T_start: Any, T_end: Any) -> Any:
    litre = Q(1.0, "L")
    tight = moles(p1 + ambient, litre, T_start) * R * kelvin(T_end) / litre
    return (p1 + ambient - tight) / (p1 - p2)


def _drops(drops: Any, drops_per_ml: Any, per: Any) -> Any:
    return drops / drops_per_ml / per


LEVEL = (
    "fall 12 mm; marks 20 mm; between 1 L",
    "fall 0.25 [in_i]; marks 20 mm; between 1 L",
    "fall 5 mm; marks 25 mm; between 0.8 L",
)
EXAMPLES = [
    *rows(
        "pressure-decay-leak-rate",
        "Pa.m3/s",
        GAS,
        _rate,
        "volume 20 L; p1 130 kPa; p2 128 kPa; time 60 s",
        "volume 5 L; p1 30 [psi]; p2 29 [psi]; time 2 min",
    ),
    *rows(
        "pressure-decay-leak-rate-sccm",
        "cm3{STP0}/min",
        GAS,
        _sccm,
        "volume 20 L; p1 130 kPa; p2 128 kPa; time 60 s; T_gas 20 Cel; T_ref 273.15 K",
        "volume 5 L; p1 30 [psi]; p2 29 [psi]; time 2 min; T_gas 298.15 K; T_ref 273.15 K",
    ),
    *rows(
        "decay-standard-flow",
        "L/min",
        GAS,
        _litres,
        "volume 20 L; p1 30 kPa; p2 26 kPa; time 90 s; temperature 25 Cel",
        "volume 8 L; p1 5 [psi]; p2 4 [psi]; time 1 min; temperature 68 [degF]",
    ),
    *rows(
        "decay-standard-flow-corrected",
        "L/min",
        GAS,
        _litres_corrected,
        "volume 20 L; p1 30 kPa; p2 26 kPa; ambient 101.325 kPa; T1 25 Cel; T2 24 Cel; time 90 s",
        "volume 8 L; p1 5 [psi]; p2 4.5 [psi]; ambient 99 kPa; T1 20 Cel; T2 21.5 Cel; time 3 min",
    ),
    *rows(
        "pressure-decay-leak-rate-molar",
        "mol/s",
        GAS,
        lambda volume, p1, T1, p2, T2, time: (moles(p2, volume, T2) - moles(p1, volume, T1)) / time,
        "volume 30 L; p1 20 kPa; T1 293.15 K; p2 21 kPa; T2 293.65 K; time 5 min",
        "volume 4 L; p1 5 kPa; T1 20 Cel; p2 7 kPa; T2 20 Cel; time 60 s",
    ),
    *rows(
        "pressure-decay-leak-rate-temperature-corrected",
        "Pa.m3/s",
        GAS,
        lambda volume, p1, p2, T1, T2, time: (moles(p1, volume, T1) - moles(p2, volume, T2)) * R * kelvin(T1) / time,
        "volume 20 L; p1 140 kPa; p2 139 kPa; T1 22 Cel; T2 23 Cel; time 120 s",
    ),
    *rows(
        "pressure-shift-from-temperature",
        "Pa",
        GAS,
        lambda p_abs, T1, T2: moles(p_abs, Q(1.0, "L"), T1) * R * kelvin(T2) / Q(1.0, "L") - p_abs,
        "p_abs 140 kPa; T1 20 Cel; T2 18 Cel",
        "p_abs 36 [psi]; T1 68 [degF]; T2 86 [degF]",
    ),
    *rows(
        "apparent-leak-from-temperature-drift",
        "Pa.m3/s",
        PINT,
        lambda volume, p_abs, dT, T, time: p_abs / kelvin(T) * dT * volume / time,
        "volume 20 L; p_abs 140 kPa; dT 0.5 K; T 295 K; time 120 s",
        "volume 5 L; p_abs 30 [psi]; dT 2 K; T 20 Cel; time 5 min",
    ),
    *rows(
        "apparent-flow-from-temperature-drift",
        "L/min",
        GAS,
        _drift,
        "volume 20 L; p1 30 kPa; ambient 101.325 kPa; T_start 22 Cel; T_end 21 Cel; time 120 s",
        "volume 6 L; p1 10 [psi]; ambient 14.7 [psi]; T_start 77 [degF]; T_end 74 [degF]; time 3 min",
    ),
    *rows(
        "temperature-share-of-fall",
        "%",
        GAS,
        _share,
        "p1 30 kPa; p2 26 kPa; ambient 101.325 kPa; T_start 22 Cel; T_end 21 Cel",
        "p1 10 [psi]; p2 9.5 [psi]; ambient 14.7 [psi]; T_start 77 [degF]; T_end 79 [degF]",
    ),
    *rows(
        "leak-unit-sccm-to-pa-m3-per-s",
        "Pa.m3/s",
        GAS,
        lambda q, T_gas, T_ref: q * ATM / (R * kelvin(T_ref)) * R * kelvin(T_gas),
        "q 50 cm3{STP0}/min; T_gas 20 Cel; T_ref 273.15 K",
    ),
    *rows(
        "leak-unit-pa-m3-per-s-to-sccm",
        "cm3{STP0}/min",
        GAS,
        lambda q, T_gas, T_ref: q / (R * kelvin(T_gas)) * R * kelvin(T_ref) / ATM,
        "q 0.05 Pa.m3/s; T_gas 20 Cel; T_ref 273.15 K",
    ),
    *rows(
        "leak-mass-flow-to-sccm",
        "cm3{STP0}/min",
        PINT,
        lambda mass_flow, R_specific, T_ref: mass_flow / (ATM / (R_specific * kelvin(T_ref))),
        "mass_flow 0.02 g/s; R_specific 287.05 J/kg/K; T_ref 273.15 K",
    ),
    *rows(
        "drip-rate-from-count",
        "{drop}/min",
        PINT,
        lambda drops, time: drops / time,
        "drops 17 {drop}; time 3 min",
        "drops 4 {drop}; time 90 s",
    ),
    *rows(
        "drip-count-loss-per-1000-km",
        "L/(1000.km)",
        PINT,
        lambda drops, time, drops_per_ml, speed: _drops(drops, drops_per_ml, time) / speed,
        "drops 6 {drop}; time 5 min; drops_per_ml 20 {drop}/mL; speed 60 km/h",
        "drops 30 {drop}; time 60 s; drops_per_ml 25 {drop}/mL; speed 50 [mi_i]/h",
    ),
    *rows(
        "drip-rate-volume-per-hour",
        "mL/h",
        PINT,
        lambda drops_per_min, drops_per_ml: drops_per_min / drops_per_ml,
        "drops_per_min 3 {drop}/min; drops_per_ml 25 {drop}/mL",
    ),
    *rows(
        "drip-rate-volume-per-day",
        "L/d",
        PINT,
        lambda drops_per_min, drops_per_ml: drops_per_min / drops_per_ml,
        "drops_per_min 3 {drop}/min; drops_per_ml 25 {drop}/mL",
    ),
    *rows(
        "drip-volume-per-1000-km",
        "L/(1000.km)",
        PINT,
        lambda drops_per_min, drops_per_ml, speed: drops_per_min / drops_per_ml / speed,
        "drops_per_min 2 {drop}/min; drops_per_ml 20 {drop}/mL; speed 40 [mi_i]/h",
    ),
    *rows(
        "drop-mass-ideal-tate",
        "mg",
        "surface tension round the rim against the weight (scipy.constants.g)",
        lambda tip_radius, surface_tension: 2 * np.pi * tip_radius * surface_tension / Q(constants.g, "m/s**2"),
        "tip_radius 2 mm; surface_tension 30 mN/m",
    ),
    *rows(
        "pool-volume-rectangle",
        "mL",
        PINT,
        lambda length, width, depth: length * width * depth,
        "length 12 [in_i]; width 8 [in_i]; depth 0.5 mm",
    ),
    *rows(
        "pool-volume-ellipse",
        "mL",
        PINT,
        lambda length, width, depth: np.pi * length / 2 * width / 2 * depth,
        "length 40 cm; width 25 cm; depth 0.6 mm",
    ),
    *rows(
        "consumption-per-1000-km",
        "L/(1000.km)",
        PINT,
        lambda top_up, distance: top_up / distance,
        "top_up 0.7 L; distance 1500 [mi_i]",
    ),
    *rows("level-difference-volume", "L", PINT, lambda fall, marks, between: between * (fall / marks), *LEVEL),
    *rows(
        "level-difference-consumption",
        "L/(1000.km)",
        PINT,
        lambda fall, marks, between, distance: between * (fall / marks) / distance,
        *(one + "; distance 2400 km" for one in LEVEL),
    ),
    *rows(
        "days-to-low-mark",
        "d",
        PINT,
        lambda above_low, standing_loss, driving_loss, daily_distance: (
            above_low / (standing_loss + driving_loss * daily_distance)
        ),
        "above_low 600 mL; standing_loss 2 mL/h; driving_loss 0 L/(1000.km); daily_distance 0 km/d",
        "above_low 0.8 L; standing_loss 0 mL/h; driving_loss 0.6 L/(1000.km); daily_distance 120 km/d",
        "above_low 500 mL; standing_loss 1.5 mL/h; driving_loss 0.3 L/(1000.km); daily_distance 60 km/d",
    ),
    *rows(
        "quantity-for-distance",
        "L",
        PINT,
        lambda use, distance: use * distance,
        "use 0.2 L/(1000.km); distance 1200 [mi_i]",
        "use 1.1 L/(1000.km); distance 800 km",
    ),
    *rows(
        "dynamic-from-kinematic-viscosity",
        "mPa.s",
        PINT,
        lambda kinematic, density: kinematic * density,
        "kinematic 95 mm2/s; density 0.86 g/cm3",
    ),
    *rows(
        "mass-from-volume",
        "kg",
        PINT,
        lambda volume, density: volume * density,
        "volume 1 [gal_us]; density 870 kg/m3",
        "volume 4.5 L; density 0.85 g/cm3",
    ),
    *rows(
        "gauge-to-absolute",
        "kPa",
        PINT,
        lambda gauge, ambient: gauge + ambient,
        "gauge 30 [psi]; ambient 101.325 kPa",
        "gauge -0.4 bar; ambient 1 bar",
    ),
]
