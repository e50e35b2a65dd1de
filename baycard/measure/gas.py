"""How long a vessel takes to blow down through a hole: a sharp hole, ideal gas, rigid walls.

Source: isentropic nozzle flow times a discharge coefficient (40 CFR 1065.640 c), ideal gas law, over pressure.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from baycard.measure.errors import MeasureError
from baycard.measure.special import integrate


@dataclass(frozen=True, slots=True)
class Blowdown:
    """Vessel in m3, absolute pressures in Pa, hole in m, start temperature in K, specific gas constant in J/(kg K)."""

    volume: float
    p1: float
    p2: float
    p_down: float
    diameter: float
    discharge: float
    temperature: float
    k: float
    gas_constant: float


def isothermal(vessel: Blowdown) -> float:
    """Seconds from p1 to p2 while the walls hold the temperature."""
    _check(vessel)
    return _time(vessel, lambda _: 1.0)


def adiabatic(vessel: Blowdown) -> float:
    """Seconds from p1 to p2 while the gas cools along the isentrope."""
    _check(vessel)
    return _time(vessel, lambda p: (p / vessel.p1) ** ((vessel.k - 1) / vessel.k)) / vessel.k


def _check(vessel: Blowdown) -> None:
    sizes = (vessel.volume, vessel.diameter, vessel.discharge, vessel.temperature, vessel.gas_constant)
    if min(sizes) <= 0 or vessel.k <= 1:
        raise MeasureError("outside-domain", "sizes are positive and the heat ratio is above 1")
    if not 0 <= vessel.p_down <= vessel.p2 <= vessel.p1 or vessel.p2 == 0:
        raise MeasureError("outside-domain", "pressure falls from p1 to p2 and not below the pressure outside")


def _time(vessel: Blowdown, cooling: Callable[[float], float]) -> float:
    """The integral of V dp / (R T Cd A G); cooling gives T over the temperature at the start."""
    area = math.pi / 4 * vessel.diameter * vessel.diameter
    speed = math.sqrt(vessel.gas_constant * vessel.temperature)

    def rate(p: float) -> float:
        return 1 / (math.sqrt(cooling(p)) * p * _flow(vessel.p_down / p, vessel.k))

    return vessel.volume / (vessel.discharge * area * speed) * _over_pressure(vessel, rate)


def _over_pressure(vessel: Blowdown, rate: Callable[[float], float]) -> float:
    """The integral of the rate from p2 to p1, in two stretches: choked and, below that, as the root of p - p_down."""
    critical = (2 / (vessel.k + 1)) ** (vessel.k / (vessel.k - 1))
    turn = min(max(vessel.p_down / critical, vessel.p2), vessel.p1)
    choked = integrate(rate, turn, vessel.p1)
    low, high = math.sqrt(vessel.p2 - vessel.p_down), math.sqrt(turn - vessel.p_down)
    return choked + (integrate(lambda s: _by_root(vessel, rate, s), low, high) if high > low else 0.0)


def _by_root(vessel: Blowdown, rate: Callable[[float], float], s: float) -> float:
    """2 s times the rate at p_down + s^2, which stays finite where the flow dies away."""
    nearest = max(s, 1e-5 * math.sqrt(vessel.p_down))
    return 2 * nearest * rate(vessel.p_down + nearest * nearest)


def _flow(ratio: float, k: float) -> float:
    """Mass flux of a nozzle over p / sqrt(R T); below the critical ratio the flow is choked."""
    r = max(ratio, (2 / (k + 1)) ** (k / (k - 1)))
    return math.sqrt(2 * k / (k - 1) * (r ** (2 / k) - r ** ((k + 1) / k)))
