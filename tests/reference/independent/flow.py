"""Gas through holes: the nozzle flux maximised numerically, the emptying integrated as a differential equation."""

import math
from typing import Any

import numpy as np
from fluids import compressible, flow_meter
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from tests.reference.independent.table import Q, kelvin, rows

R = 287.05
METER: Any = flow_meter
NOZZLE = "energy balance along the stream, flux maximised over the throat pressure (scipy.optimize)"
EMPTYING = "the time, V dp/(R T m(p)), integrated with scipy.integrate.quad; flux maximised numerically"
CFR = "40 CFR 1065.640, recomputed with pint quantities"


def flux(up: float, down: float, t: float = 293.15, k: float = 1.4, r: float = R) -> float:
    """Mass flow through each square metre, in kg/s, by maximising over the pressure in the throat."""

    def negative(throat: float) -> float:
        heat = k * r / (k - 1)
        cooled = t * (throat / up) ** ((k - 1) / k)
        return float(-math.sqrt(max(0.0, 2 * heat * (t - cooled))) * throat / (r * cooled))

    found = minimize_scalar(negative, bounds=(down, up), method="bounded", options={"xatol": 1e-9 * up})
    return float(max(-found.fun, -negative(down)))


def hole(mass_kg_s: float, cd: float, per_area: float) -> float:
    """Diameter in metres of the hole that passes so much."""
    return float(np.sqrt(4 * mass_kg_s / (np.pi * cd * per_area)))


def area_seconds(volume: float, p1: float, p2: float, down: float, cd: float = 0.62) -> float:
    """Hole area in square metres times seconds of isothermal emptying at 293.15 K from p1 to p2, in pascal."""
    found = quad(lambda p: 1 / flux(p, down), p2, p1, points=[min(max(p2, down / 0.528), p1)], epsrel=1e-9)
    return volume / (R * 293.15 * cd) * float(found[0])


def _flow(p_up: Any, p_down: Any, diameter: Any, T: Any, Cd: Any) -> Any:
    per_area = flux(p_up.to("Pa").m, p_down.to("Pa").m, kelvin(T).m)
    return Q(Cd.m * math.pi / 4 * diameter.to("m").m ** 2 * per_area, "kg/s")


def _makeup(flow: Any, pressure: Any, ambient: Any, temperature: Any, Cd: Any) -> Any:
    mass = (flow * Q(101.325, "kPa") / (Q(R, "J/kg/K") * Q(293.15, "K"))).to("kg/s").m
    per_area = flux((pressure + ambient).to("Pa").m, ambient.to("Pa").m, kelvin(temperature).m)
    return Q(hole(mass, Cd.m, per_area), "m")


def _from_decay(volume: Any, p1: Any, p2: Any, time: Any, p_down: Any, Cd: Any) -> Any:
    mass = (volume * (p1 - p2) / time / (Q(R, "J/kg/K") * Q(293.15, "K"))).to("kg/s").m
    return Q(hole(mass, Cd.m, flux(((p1 + p2) / 2).to("Pa").m, p_down.to("Pa").m)), "m")


def _from_run(volume: Any, p1: Any, p2: Any, time: Any, ambient: Any) -> Any:
    ends = [(p + ambient).to("Pa").m for p in (p1, p2)]
    area = area_seconds(volume.to("m**3").m, ends[0], ends[1], ambient.to("Pa").m) / time.to("s").m
    return Q(math.sqrt(4 * area / math.pi), "m")


def _choked_seconds(volume: Any, p1: Any, p2: Any, diameter: Any) -> Any:
    area = math.pi / 4 * diameter.to("m").m ** 2
    return Q(area_seconds(volume.to("m**3").m, p1.to("Pa").m, p2.to("Pa").m, 101325.0) / area, "s")


def _cf(k: Any, beta: Any, p_in: Any, dp: Any) -> Any:
    r = (1 - dp / p_in).to("").m
    top = 2 * k.m / (k.m - 1) * (np.power(r, (k.m - 1) / k.m) - 1)
    return float(np.sqrt(top / (np.power(beta.m, 4) - np.power(r, -2 / k.m))))


def _n(Cd: Any, Cf: Any, A: Any, p_in: Any, M: Any, T: Any) -> Any:
    return Cd * Cf * A * p_in / (M * Q(8.314472, "J/mol/K") * kelvin(T)) ** 0.5


def _cd(n_ref: Any, M: Any, T: Any, A: Any, p_in: Any, k: Any, beta: Any, dp: Any) -> Any:
    return (n_ref * (M * Q(8.314472, "J/mol/K") * kelvin(T)) ** 0.5 / (_cf(k, beta, p_in, dp) * A * p_in)).to("").m


def _plate(D: Any, Do: Any, p_up: Any, p_down: Any, density: Any, C: Any, epsilon: Any) -> Any:
    metres = [one.to("m").m for one in (D, Do)]
    ends = [one.to("Pa").m for one in (p_up, p_down)]
    return Q(METER.flow_meter_discharge(*metres, *ends, density.to("kg/m**3").m, C.m, epsilon.m), "kg/s")


PLATE = "fluids.flow_meter"
EXAMPLES = [
    *rows(
        "orifice-mass-flow",
        "g/s",
        NOZZLE,
        _flow,
        "p_up 14.7 [psi]; p_down 90 kPa; diameter 3 mm; T 20 Cel; Cd 0.62",
        "p_up 3.2 bar; p_down 101.325 kPa; diameter 0.04 [in_i]; T 313.15 K; Cd 0.6",
        "p_up 130 kPa; p_down 101.325 kPa; diameter 1.5 mm; T 68 [degF]; Cd 0.7",
        rtol=1e-7,
    ),
    *rows(
        "orifice-mass-flow-incompressible",
        "g/s",
        "Bernoulli with pint quantities",
        lambda Cd, diameter, p_up, p_down, density: (
            Cd * np.pi * diameter**2 / 4 * density * (2 * (p_up - p_down) / density) ** 0.5
        ),
        "Cd 0.6; diameter 2 mm; p_up 3 bar; p_down 1 bar; density 860 kg/m3",
        "Cd 0.62; diameter 0.05 [in_i]; p_up 40 [psi]; p_down 14.7 [psi]; density 1000 kg/m3",
    ),
    *rows(
        "equivalent-hole-diameter",
        "mm",
        NOZZLE,
        lambda mass_flow, p_up, p_down, Cd: Q(
            hole(mass_flow.to("kg/s").m, Cd.m, flux(p_up.to("Pa").m, p_down.to("Pa").m)), "m"
        ),
        "mass_flow 0.3 g/s; p_up 140 kPa; p_down 101.325 kPa; Cd 0.62",
        "mass_flow 1.2 g/s; p_up 36 [psi]; p_down 14.7 [psi]; Cd 0.6",
        rtol=1e-7,
    ),
    *rows(
        "equivalent-hole-from-decay",
        "mm",
        NOZZLE + ", at the mean pressure",
        _from_decay,
        "volume 20 L; p1 131.325 kPa; p2 128.325 kPa; time 60 s; p_down 101.325 kPa; Cd 0.62",
        "volume 3 L; p1 40 [psi]; p2 38 [psi]; time 2 min; p_down 14.7 [psi]; Cd 0.6",
        rtol=1e-7,
    ),
    *rows(
        "equivalent-hole-from-run",
        "mm",
        EMPTYING,
        _from_run,
        "volume 12 L; p1 30 kPa; p2 20 kPa; time 45 s; ambient 101.325 kPa",
        "volume 6 L; p1 120 kPa; p2 40 kPa; time 30 s; ambient 99 kPa",
        rtol=1e-5,
    ),
    *rows(
        "equivalent-hole-from-makeup-flow",
        "mm",
        NOZZLE,
        _makeup,
        "flow 20 L/min; pressure 20 kPa; ambient 101.325 kPa; temperature 20 Cel; Cd 0.62",
        "flow 60 L/min; pressure 1.2 bar; ambient 98 kPa; temperature 35 Cel; Cd 0.6",
        "flow 3 L/min; pressure 1 [psi]; ambient 14.7 [psi]; temperature 68 [degF]; Cd 0.62",
        rtol=1e-7,
    ),
    *rows(
        "blowdown-time-isothermal-choked-closed-form",
        "s",
        EMPTYING,
        _choked_seconds,
        "volume 5 L; p1 600 kPa; p2 300 kPa; diameter 1 mm",
        "volume 20 L; p1 8 bar; p2 3 bar; diameter 2 mm",
        rtol=1e-6,
    ),
    *rows(
        "critical-pressure",
        "kPa",
        "fluids.compressible.P_critical_flow",
        lambda p0, k: Q(compressible.P_critical_flow(p0.to("Pa").m, k.m), "Pa"),
        "p0 250 kPa; k 1.4",
        "p0 6 bar; k 1.3",
    ),
    *rows(
        "choked-threshold-gauge-pressure",
        "kPa",
        "fluids.compressible.P_critical_flow, turned round",
        lambda p_ambient, k: p_ambient / compressible.P_critical_flow(1.0, k.m) - p_ambient,
        "p_ambient 14.2 [psi]; k 1.4",
    ),
    *rows(
        "orifice-expansibility-iso5167",
        "1",
        PLATE,
        lambda D, Do, p_up, p_down, k: METER.orifice_expansibility(
            *(one.to("m").m for one in (D, Do)), *(one.to("Pa").m for one in (p_up, p_down)), k.m
        ),
        "D 60 mm; Do 36 mm; p_up 110 kPa; p_down 104 kPa; k 1.4",
        "D 3 [in_i]; Do 2 [in_i]; p_up 15.2 [psi]; p_down 14.9 [psi]; k 1.33",
    ),
    *rows(
        "orifice-plate-mass-flow-iso5167",
        "kg/s",
        PLATE,
        _plate,
        "D 60 mm; Do 36 mm; p_up 110 kPa; p_down 104 kPa; density 1.3 kg/m3; C 0.61; epsilon 0.98",
        "D 3 [in_i]; Do 2 [in_i]; p_up 15.2 [psi]; p_down 14.9 [psi]; density 1.2 kg/m3; C 0.6; epsilon 1",
    ),
    *rows(
        "venturi-pressure-ratio",
        "1",
        CFR,
        lambda p_in, dp: ((p_in - dp) / p_in).to("").m,
        "p_in 101.3 kPa; dp 1.8 kPa",
        "p_in 14.5 [psi]; dp 3 kPa",
    ),
    *rows(
        "venturi-flow-coefficient",
        "1",
        CFR,
        _cf,
        "k 1.4; beta 0.5; p_in 101 kPa; dp 3 kPa",
        "k 1.39; beta 0.7; p_in 14.6 [psi]; dp 1.5 kPa",
    ),
    *rows(
        "venturi-molar-flow",
        "mol/s",
        CFR,
        _n,
        "Cd 0.98; Cf 0.3; A 20 cm2; p_in 100 kPa; M 28.8 g/mol; T 25 Cel",
        "Cd 0.985; Cf 0.25; A 0.01 m2; p_in 14.6 [psi]; M 28.9 g/mol; T 300 K",
    ),
    *rows(
        "venturi-discharge-coefficient",
        "1",
        CFR,
        _cd,
        "n_ref 6 mol/s; M 28.8 g/mol; T 298 K; A 0.002 m2; p_in 100 kPa; k 1.4; beta 0.6; dp 2.5 kPa",
        "n_ref 30 mol/s; M 28.9 g/mol; T 25 Cel; A 0.01 m2; p_in 99 kPa; k 1.399; beta 0.8; dp 2 kPa",
    ),
    *rows(
        "standard-volume-to-molar-flow",
        "mol/s",
        CFR,
        lambda V_std, p_std, T_std: p_std * V_std / (Q(8.314472, "J/mol/K") * kelvin(T_std)),
        "V_std 0.5 m3/s; p_std 101.325 kPa; T_std 20 Cel",
        "V_std 300 L/min; p_std 101.325 kPa; T_std 273.15 K",
    ),
    *rows(
        "humid-air-molar-mass",
        "g/mol",
        CFR,
        lambda M_air, x_h2o, M_h2o: np.average([M_air.m, M_h2o.m], weights=[1 - x_h2o.m, x_h2o.m]),
        "M_air 28.96559 g/mol; x_h2o 0.01 mol/mol; M_h2o 18.01528 g/mol",
        "M_air 28.96559 g/mol; x_h2o 0.03 mol/mol; M_h2o 18.01528 g/mol",
    ),
]
