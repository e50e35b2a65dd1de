"""The small typed functions that are not arithmetic, by the name a method gives them.

Each says its inputs and output with their units, in which it works. `{text}`, `{hex}` and `{list}` inputs are text; a
limit left out is none. Where all units read `1` though a length or a voltage may be meant, any one unit will do.
"""

import dataclasses
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from baycard.measure import conformity, gas, uncertainty
from baycard.measure.codes import (
    brakes,
    conductors,
    fractions,
    monitors,
    resistors,
    tread,
    trouble,
    tyre,
    tyre_age,
    vin,
)
from baycard.measure.errors import MeasureError
from baycard.measure.given import Answer, Given, amount, octets, optional, text, texts, whole
from baycard.measure.units import Units

CREST = {"sine": math.sqrt(2), "triangle": math.sqrt(3), "square": 1.0}
KURTOSIS = {"sine": 1.5, "triangle": 1.8, "square": 1.0, "gaussian": 3.0}
NO_UNIT = (0,) * 8


@dataclass(frozen=True, slots=True)
class Function:
    """A function: unit of each input, unit of the answer, and the work."""

    inputs: Mapping[str, str]
    output: str
    work: Callable[[Given, Units], Answer]


def _of_text(name: str, output: str, work: Callable[[str], Answer]) -> Function:
    return Function({name: "{text}"}, output, lambda given, _: work(text(given, name)))


def _of_bytes(name: str, output: str, work: Callable[[list[int]], Answer]) -> Function:
    return Function({name: "{hex}"}, output, lambda given, _: work(octets(given, name)))


def _of_amounts(inputs: Mapping[str, str], output: str, work: Callable[..., Answer]) -> Function:
    return Function(inputs, output, lambda given, _: work(*(amount(given, name) for name in inputs)))


def _of_whole(inputs: Mapping[str, str], output: str, work: Callable[..., Answer]) -> Function:
    return Function(inputs, output, lambda given, _: work(*(whole(given, name) for name in inputs)))


def _waveform(known: Mapping[str, float]) -> Callable[[str], float]:
    def value(name: str) -> float:
        if name not in known:
            raise MeasureError("outside-domain", f"the waveforms are {' '.join(known)}")
        return known[name]

    return value


def _blowdown(given: Given) -> gas.Blowdown:
    return gas.Blowdown(
        volume=amount(given, "volume") / 1000,
        p1=amount(given, "p1") * 1000,
        p2=amount(given, "p2") * 1000,
        p_down=amount(given, "p_down") * 1000,
        diameter=amount(given, "diameter") / 1000,
        discharge=amount(given, "Cd"),
        temperature=amount(given, "T"),
        k=amount(given, "k"),
        gas_constant=amount(given, "R_specific"),
    )


def _size_part(part: str, output: str) -> Function:
    return _of_text("designation", output, lambda words: tyre.size_part(words, part))


def _guarded(given: Given) -> tuple[float, float, float | None, float | None]:
    guard = amount(given, "r") * amount(given, "U")
    return amount(given, "y"), guard, optional(given, "TL"), optional(given, "TU")


def _convert(given: Given, units: Units) -> float:
    return units.convert(amount(given, "value"), text(given, "from"), text(given, "to"))


def _convert_difference(given: Given, units: Units) -> float:
    return units.convert_difference(amount(given, "value"), text(given, "from"), text(given, "to"))


def _convert_economy(given: Given, units: Units) -> float:
    """Between distance per fuel and fuel per distance, which are reciprocals; else as any unit."""
    source, target = text(given, "from"), text(given, "to")
    a, b = units.read(source), units.read(target)
    if tuple(-x for x in a.dim) != b.dim or a.dim == NO_UNIT:
        return _convert(given, units)
    value = amount(given, "value")
    if value <= 0:
        raise MeasureError("outside-domain", "a fuel economy is positive")
    return 1 / (value * a.factor) / b.factor


CONVERSION = {"value": "1", "from": "{text}", "to": "{text}"}
BLOWDOWN = {
    **{"volume": "L", "p1": "kPa", "p2": "kPa", "p_down": "kPa", "diameter": "mm"},
    **{"Cd": "1", "T": "K", "k": "1", "R_specific": "J/kg/K"},
}
GUARDED = {"y": "1", "r": "1", "U": "1", "TL": "1", "TU": "1"}
GAMMA = {"shape": "1", "scale": "1", "TU": "1"}

FUNCTIONS: Mapping[str, Function] = {
    "vin-weighted-sum": _of_text("vin", "1", vin.weighted_sum),
    "vin-check-digit": _of_text("vin", "{text}", vin.check_digit),
    "vin-check-valid": _of_text("vin", "{bool}", vin.check_valid),
    "vin-parts": _of_text("vin", "{list}", vin.parts),
    "vin-invalid-positions": _of_text("vin", "{list}", vin.invalid_positions),
    "vin-model-year-candidates": _of_text("pos10", "{list}", vin.model_year_candidates),
    "vin-model-year-us-light": Function(
        {"pos7": "{text}", "pos10": "{text}"},
        "a",
        lambda given, _: vin.model_year_us_light(text(given, "pos7"), text(given, "pos10")),
    ),
    "vin-region": _of_text("pos1", "{text}", vin.region),
    "tyre-size": _of_text("designation", "{tyre}", lambda words: dataclasses.asdict(tyre.size(words))),
    "tyre-size-width": _size_part("width_mm", "mm"),
    "tyre-size-aspect": _size_part("aspect_percent", "%"),
    "tyre-size-rim": _size_part("rim_in", "[in_i]"),
    "tyre-size-load-index": _size_part("load_index", "1"),
    "tyre-size-speed-symbol": _size_part("speed_symbol", "{text}"),
    "tin-date": _of_text("code", "{date}", tyre.date),
    "tin-age-years": Function(
        {"code": "{text}", "date": "{text}"},
        "a",
        lambda given, _: tyre_age.age_years(text(given, "code"), text(given, "date")),
    ),
    "tyre-age-on-date": Function(
        {"made": "1", "date": "{text}"},
        "a",
        lambda given, _: tyre_age.age_of_number(whole(given, "made"), text(given, "date")),
    ),
    "tread-wear-pattern": _of_amounts(
        {"inner": "mm", "middle": "mm", "outer": "mm", "even_within": "mm"}, "{text}", tread.wear_pattern
    ),
    "tyre-load-share": Function(
        {"load_index": "1", "tyres": "1", "axle_load": "kg"},
        "%",
        lambda given, _: tyre.load_share_percent(
            whole(given, "load_index"), whole(given, "tyres"), amount(given, "axle_load")
        ),
    ),
    "tyre-load-index": _of_whole({"load_index": "1"}, "kg", tyre.load_kg),
    "tyre-axle-capacity": _of_whole({"load_index": "1", "tyres": "1"}, "kg", tyre.axle_capacity_kg),
    "tyre-speed-symbol": _of_text("symbol", "km/h", tyre.speed_kmh),
    "dtc-decode": _of_bytes("bytes", "{text}", trouble.decode),
    "dtc-encode": _of_text("code", "{hex}", trouble.encode),
    "dtc-list-can": _of_bytes("payload", "{list}", trouble.listed_can),
    "dtc-list-noncan": _of_bytes("payload", "{list}", trouble.listed_older),
    "dtc-controlled-by": _of_text("code", "{text}", trouble.controlled_by),
    "readiness-mil": _of_bytes("bytes", "{bool}", monitors.lamp_on),
    "readiness-dtc-count": _of_bytes("bytes", "1", monitors.code_count),
    "readiness-ignition-type": _of_bytes("bytes", "{text}", monitors.ignition_type),
    "readiness-supported-monitors": _of_bytes("bytes", "{list}", monitors.supported),
    "readiness-incomplete-monitors": _of_bytes("bytes", "{list}", monitors.incomplete),
    "readiness-incomplete-count-noncontinuous": _of_bytes("bytes", "1", monitors.incomplete_count),
    "readiness-epa-allowed": _of_whole({"model_year": "a"}, "1", monitors.epa_allowed),
    "readiness-epa-accepted": _of_whole({"model_year": "a", "incomplete": "1"}, "{bool}", monitors.epa_accepted),
    "conductor-max-resistance-iec60228": Function(
        {"class": "{text}", "area": "mm2"},
        "Ohm/km",
        lambda given, _: conductors.max_resistance(text(given, "class"), amount(given, "area")),
    ),
    "resistor-colour-decode": Function(
        {"bands": "{list}"}, "Ohm", lambda given, _: resistors.decode(texts(given, "bands"))
    ),
    "resistor-colour-bands": _of_amounts({"resistance": "Ohm"}, "{list}", resistors.bands),
    "substitution-resistor": _of_amounts(
        {"level": "%", "R_empty": "Ohm", "R_full": "Ohm"}, "Ohm", resistors.substitute
    ),
    "e24-nearest": _of_amounts({"resistance": "Ohm"}, "Ohm", resistors.e24_nearest),
    "e96-nearest": _of_amounts({"resistance": "Ohm"}, "Ohm", resistors.e96_nearest),
    "e96-value": _of_whole({"n": "1"}, "1", resistors.e96_value),
    "disc-minimum-from-stamp": _of_text("stamp", "mm", brakes.disc_minimum_mm),
    "brake-fluid-minimum-boiling-point": Function(
        {"grade": "{text}", "state": "{text}"},
        "Cel",
        lambda given, _: brakes.boiling_minimum_cel(text(given, "grade"), text(given, "state")),
    ),
    "inch-fraction": _of_text("written", "[in_i]", fractions.inches),
    "unit-convert": Function(CONVERSION, "{to}", _convert),
    "temperature-convert": Function(CONVERSION, "{to}", _convert),
    "temperature-difference-convert": Function(CONVERSION, "{to}", _convert_difference),
    "fuel-economy-convert": Function(CONVERSION, "{to}", _convert_economy),
    "blowdown-time-isothermal": Function(BLOWDOWN, "s", lambda given, _: gas.isothermal(_blowdown(given))),
    "blowdown-time-adiabatic": Function(BLOWDOWN, "s", lambda given, _: gas.adiabatic(_blowdown(given))),
    "crest-factor-ideal": _of_text("waveform", "1", _waveform(CREST)),
    "kurtosis-ideal": _of_text("waveform", "1", _waveform(KURTOSIS)),
    "coverage-factor-t": _of_amounts({"p": "1", "dof": "1"}, "1", uncertainty.coverage_factor),
    "conformity-probability": Function(
        {"y": "1", "u": "1", "TL": "1", "TU": "1"},
        "1",
        lambda given, _: conformity.probability(
            amount(given, "y"), amount(given, "u"), optional(given, "TL"), optional(given, "TU")
        ),
    ),
    "decision-binary-guard-band": Function(GUARDED, "{text}", lambda given, _: conformity.binary(*_guarded(given))),
    "decision-nonbinary-guard-band": Function(
        GUARDED, "{text}", lambda given, _: conformity.nonbinary(*_guarded(given))
    ),
    "rejection-limit-relative-uncertainty": _of_amounts(
        {"limit": "km/h", "u_rel": "%", "p": "1"}, "km/h", conformity.rejection_limit
    ),
    "false-accept-probability-at-limit": _of_amounts({"r": "1", "k": "1"}, "1", conformity.false_accept_at_limit),
    "guard-band-multiplier-for-risk": _of_amounts({"risk": "1", "k": "1"}, "1", conformity.guard_multiplier),
    "gamma-out-of-tolerance": _of_amounts(GAMMA, "1", conformity.gamma_out_of_tolerance),
    "global-false-accept-risk-gamma": _of_amounts(
        {**GAMMA, "u": "1", "guard": "1"}, "1", conformity.gamma_false_accept
    ),
    "guard-band-for-global-risk-gamma": _of_amounts(
        {**GAMMA, "u": "1", "target": "1"}, "1", conformity.gamma_guard_for_risk
    ),
}
