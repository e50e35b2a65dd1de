"""How an independent example is written down: inputs as text, the work as a function over pint quantities."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import pint

REGISTRY: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
Q = REGISTRY.Quantity
Work = Callable[..., Any]
UNITS = {
    **{"1": "", "{drop}": "", "{rev}": "", "{dB}": "", "{AWG}": "", "{bool}": "", "%": "percent", "deg": "degree"},
    **{"'": "arcminute", "[in_i]": "inch", "[ft_i]": "foot", "[psi]": "psi", "[degF]": "degF", "Cel": "degC"},
    **{"[lbf_av].[ft_i]": "lbf*foot", "[gal_us]": "gallon", "[mi_i]": "mile", "[lb_av]": "pound", "[lbf_av]": "lbf"},
    **{"A.h": "ampere*hour", "Ohm": "ohm", "N.m": "newton*meter", "mm2": "mm**2", "mm2/s": "mm**2/s", "m2": "m**2"},
    **{"L/(1000.km)": "liter/megameter", "mm/(1000.km)": "mm/megameter", "{drop}/min": "1/minute", "{drop}/mL": "1/mL"},
    **{"{rev}/min": "1/minute", "{rev}/km": "1/km", "cm3{STP0}/min": "cm**3/minute", "Pa.m3/s": "Pa*m**3/s"},
    **{"kg/m3": "kg/m**3", "Ohm/km": "ohm/km", "Ohm.mm2/m": "ohm*mm**2/m", "/K": "1/kelvin", "mol/mol": "", "um": "um"},
    **{"J/kg/K": "J/kg/K", "J/mol/K": "J/mol/K", "g/mol": "g/mol", "mPa.s": "mPa*s", "mN/m": "mN/m", "h": "hour"},
    **{
        "d": "day",
        "a": "year",
        "m3/s": "m**3/s",
        "m/s2": "m/s**2",
        "cm3": "cm**3",
        "km/d": "km/day",
        "mL/h": "mL/hour",
    },
    **{
        "[mi_i]/[gal_us]": "mile/gallon",
        "[mi_i]/h": "mile/hour",
        "[cin_i]": "inch**3",
        "min": "minute",
    },
}
"""UCUM codes as pint writes them; a code that is not here is the same in both."""


@dataclass(frozen=True)
class Example:
    """One example: what is put in, as a table of calculations holds it, and what an independent way gives."""

    method: str
    inputs: Mapping[str, Any]
    value: Any
    unit: str
    rtol: float
    source: str
    basis: str = "computed-library"


def rows(method: str, unit: str, source: str, work: Work, *sets: str, rtol: float = 1e-9) -> list[Example]:
    """An example for each set of inputs such as `volume 20 L; readings [1, 2] mm`; `work` gets pint quantities."""
    made = []
    for one in sets:
        inputs = {name: _input(rest) for name, rest in (part.strip().split(" ", 1) for part in one.split(";"))}
        value = work(**{name: quantity(amount) for name, amount in inputs.items()})
        made.append(Example(method, inputs, plain(value, unit), unit, rtol, source))
    return made


def words(
    method: str, unit: str, source: str, *pairs: tuple[Mapping[str, str] | str, Any], basis: str = "published-memory"
) -> list[Example]:
    """Examples of a method that reads text: what is read, and what it means by an outside source."""
    made = []
    for given, value in pairs:
        texts = {"": given} if isinstance(given, str) else given
        inputs = {name: {"value": one, "unit": "{text}"} for name, one in texts.items()}
        made.append(Example(method, inputs, value, unit, 0, source, basis))
    return made


def quantity(amount: Mapping[str, Any]) -> Any:
    """The input as a pint quantity."""
    value = amount["value"]
    return Q(np.array(value, dtype=float) if isinstance(value, list) else float(value), pint_unit(amount["unit"]))


def pint_unit(code: str) -> str:
    """The name pint has for a UCUM code."""
    return UNITS.get(code, re.sub(r"(?<=[a-z])([23])", r"**\1", code.replace("Ohm", "ohm")))


def plain(value: Any, unit: str) -> Any:
    """The result as JSON holds it: a quantity in the unit asked for, else as it is."""
    if isinstance(value, Q):
        return float(value.to(pint_unit(unit)).magnitude)
    if isinstance(value, bool | np.bool_):
        return bool(value)
    return float(value) if isinstance(value, int | float | np.floating) else value


def kelvin(temperature: Any) -> Any:
    """A temperature as kelvin."""
    return temperature.to("kelvin")


def _input(text: str) -> dict[str, Any]:
    found = re.fullmatch(r"(\[[^\]]*\]|[-+0-9.e]+)(?: (\S+))?", text.strip())
    assert found, text
    value = [float(one) for one in found[1][1:-1].split(",")] if found[1].startswith("[") else float(found[1])
    return {"value": value, "unit": found[2] or "1"}
