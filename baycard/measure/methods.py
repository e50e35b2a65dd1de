"""Working a method out: inputs into its units, formula or function, uncertainty of the result."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from baycard.measure.arithmetic import number
from baycard.measure.book import Method, MethodInput
from baycard.measure.errors import MeasureError
from baycard.measure.functions import FUNCTIONS
from baycard.measure.given import Answer, Given
from baycard.measure.tree import LONGEST_LIST, evaluate
from baycard.measure.uncertainty import combined
from baycard.measure.units import Units

SLACK = 1e-9
"""How far, in parts of the range's ends, a converted value may lie outside by rounding alone."""


ANY = "{any}"
"""Declares an input or an output in any one unit."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One input as asked for: its name, what the method says of it, and the unit it is wanted in."""

    name: str
    spec: MethodInput
    unit: str


@dataclass(frozen=True, slots=True)
class Quantity:
    """What is put in: a number, text, or a list of either, its unit, and its standard uncertainty if known.

    The uncertainty of a list is that of each of its values.
    """

    value: float | str | Sequence[float] | Sequence[str]
    unit: str
    u: float | None = None


@dataclass(frozen=True, slots=True)
class Result:
    """What came out, in the method's unit, with its standard uncertainty when the inputs carried any."""

    value: Answer
    unit: str
    u: float | None


def work(method: Method, inputs: Mapping[str, Quantity], units: Units) -> Result:
    """The answer of a method.

    Any compatible unit is taken and converted; defaults stand in for what is missing. Uncertainty by central
    differences over one standard uncertainty of each input, inputs uncorrelated (JCGM 100 5.1.2 and 5.1.3 note 2).
    Inputs declared in `{any}` share the unit of the first of them that is given, and so does an output in `{any}`.
    Raises MeasureError with any of its codes.
    """
    run = _runner(method, units)
    wanted = units_wanted(method, {name: quantity.unit for name, quantity in inputs.items()})
    given = {
        name: _given(Asked(name, spec, wanted[name]), inputs.get(name), units) for name, spec in method.inputs.items()
    }
    value = run(given)
    u = None
    if isinstance(value, int | float) and not isinstance(value, bool):
        u = _propagated(run, given, float(value), _uncertainties(method, inputs, wanted, units))
    return Result(value, _unit_of_answer(method, given, wanted), u)


def _runner(method: Method, units: Units) -> Callable[[Given], Answer]:
    tree, function = method.tree, FUNCTIONS.get(method.function or "")
    if tree is not None:
        return lambda given: evaluate(tree, _numbers(given))
    if function is None:
        raise MeasureError("unknown-method", f"{method.id} has no formula and no known function")
    return lambda given: function.work(given, units)


def _numbers(given: Given) -> dict[str, float | list[float]]:
    """What a formula can read: text inputs are left out."""
    found: dict[str, float | list[float]] = {}
    for name, value in given.items():
        if isinstance(value, float):
            found[name] = value
        elif isinstance(value, list) and all(isinstance(item, float) for item in value):
            found[name] = [item for item in value if isinstance(item, float)]
    return found


def units_wanted(method: Method, given: Mapping[str, str]) -> dict[str, str]:
    """The unit each input is wanted in. given: the unit of each input that is given, by its name."""
    free = (given[name] for name, spec in method.inputs.items() if spec.unit == ANY and name in given)
    shared = next(free, "1")
    return {name: shared if spec.unit == ANY else spec.unit for name, spec in method.inputs.items()}


def output_unit(method: Method, wanted: Mapping[str, str]) -> str:
    """The unit of the answer: the declared one, or the shared one where `{any}` is declared."""
    if method.output.unit != ANY:
        return method.output.unit
    return next((wanted[name] for name, spec in method.inputs.items() if spec.unit == ANY), "1")


def _given(asked: Asked, quantity: Quantity | None, units: Units) -> float | str | list[float | str]:
    """The input in the unit it is wanted in, checked."""
    name, spec = asked.name, asked.spec
    if quantity is None:
        if spec.default is None:
            raise MeasureError("missing-input", f"{name} is needed, in {asked.unit}")
        return float(spec.default)
    if not spec.list:
        return _text(name, quantity.value) if spec.text else _amount(asked, quantity.value, quantity.unit, units)
    if isinstance(quantity.value, str) or not isinstance(quantity.value, Sequence):
        raise MeasureError("not-a-number", f"{name} needs a list")
    if len(quantity.value) > LONGEST_LIST:
        raise MeasureError("too-large", f"{name} has more than {LONGEST_LIST} values")
    if spec.text:
        return [_text(name, item) for item in quantity.value]
    return [_amount(asked, item, quantity.unit, units) for item in quantity.value]


def _text(name: str, value: object) -> str:
    if not isinstance(value, str):
        raise MeasureError("wrong-unit", f"{name} needs text")
    return value


def _amount(asked: Asked, value: object, unit: str, units: Units) -> float:
    amount = _converted(asked, number(value, asked.name), unit, units)
    if asked.spec.range is not None:
        low, high = asked.spec.range
        slack = SLACK * max(abs(low), abs(high))
        if not low - slack <= amount <= high + slack:
            raise MeasureError("out-of-range", f"{asked.name} must lie between {low:g} and {high:g} {asked.unit}")
    return amount


def _converted(asked: Asked, value: float, unit: str, units: Units) -> float:
    try:
        return units.convert(value, unit, asked.unit)
    except MeasureError as error:
        raise MeasureError(error.code, f"{asked.name}: {error.detail}") from None


def _uncertainties(
    method: Method, inputs: Mapping[str, Quantity], wanted: Mapping[str, str], units: Units
) -> dict[str, float]:
    """The standard uncertainty of each input that has one, in the unit it is wanted in."""
    found = {}
    for name, spec in method.inputs.items():
        quantity = inputs.get(name)
        if quantity is None or quantity.u is None or spec.text:
            continue
        if number(quantity.u, name) < 0:
            raise MeasureError("out-of-range", f"the uncertainty of {name} cannot be negative")
        found[name] = units.convert_difference(quantity.u, quantity.unit, wanted[name])
    return found


def _propagated(
    run: Callable[[Given], Answer], given: Given, centre: float, uncertainties: Mapping[str, float]
) -> float | None:
    if not uncertainties:
        return None
    parts: list[float] = []
    for name, u in uncertainties.items():
        value = given[name]
        places = range(len(value)) if isinstance(value, list) else [0]
        parts.extend(_effect(run, given, centre, (name, place, u)) for place in places if u > 0)
    return combined(parts)


def _effect(run: Callable[[Given], Answer], given: Given, centre: float, shift: tuple[str, int, float]) -> float:
    """Half the difference between the answers one u up and one u down; at the edge of the domain, one side alone."""
    name, place, u = shift
    high = _answer(run, _shifted(given, name, place, u))
    low = _answer(run, _shifted(given, name, place, -u))
    if high is None and low is None:
        raise MeasureError("outside-domain", f"{name} is too uncertain for this calculation")
    if high is None or low is None:
        return (centre if high is None else high) - (centre if low is None else low)
    return (high - low) / 2


def _answer(run: Callable[[Given], Answer], given: Given) -> float | None:
    try:
        return number(run(given), "the answer")
    except MeasureError as error:
        if error.code != "outside-domain":
            raise
        return None


def _shifted(given: Given, name: str, place: int, by: float) -> Given:
    value = given[name]
    if isinstance(value, list):
        return {**given, name: [number(x, name) + by if i == place else x for i, x in enumerate(value)]}
    return {**given, name: number(value, name) + by}


def _unit_of_answer(method: Method, given: Given, wanted: Mapping[str, str]) -> str:
    """As declared; {name} is the unit which the text input of that name holds."""
    unit = output_unit(method, wanted)
    named = re.fullmatch(r"\{([^{}]+)\}", unit)
    held = given.get(named[1]) if named else None
    return held if isinstance(held, str) else unit
