"""Readings and limits said in words: a number with its unit and how sure it is, a limit with its side."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from baycard.checklists.types import Check, ChoiceAnswer, Limit, Option, SpreadAnswer
from baycard.measure.units import Units
from baycard.report.units import with_unit
from baycard.report.words import Words

COVERAGE = 2


@dataclass(frozen=True, slots=True)
class Voice:
    """The language numbers are said in, and the units they may have to be said in."""

    words: Words
    units: Units


def decimals_of(check: Check, unit: str, voice: Voice) -> int:
    """How many places to show in this unit: those of the check, more where the unit is coarser than the check's own."""
    decimals, own = int(getattr(check.answer, "decimals", 2)), str(getattr(check.answer, "unit", unit))
    if own == unit or not voice.units.compatible(unit, own):
        return decimals
    return max(0, decimals + round(math.log10(abs(voice.units.convert_difference(1, unit, own)))))


def say_number(value: float, unit: str, u: float | None, check: Check, voice: Voice) -> str:
    """The number, and beside it how far off it may be: twice its standard uncertainty."""
    said, decimals = _plain(value, unit, check, voice), decimals_of(check, unit, voice)
    if not u:
        return said
    give = with_unit(
        voice.words.number(_two_digits(COVERAGE * u), 0 if COVERAGE * u >= 10 else decimals), unit, voice.words
    )
    return voice.words.say("%(value)s, give or take %(give)s", value=said, give=give)


def _two_digits(value: float) -> float:
    return float(f"{value:.2g}")


def say_answer(body: Mapping[str, Any], check: Check, voice: Voice, u: float | None = None) -> str:
    """The body of an answer in words (docs/formats.md, answer bodies)."""
    match body.get("is"):
        case "choice":
            option = option_of(check, str(body["choice"]))
            return option.label if option else str(body["choice"])
        case "number":
            return _repeated(body, say_number(body["value"], body["unit"], u, check, voice), voice)
        case "spread":
            return _spread(body, check, voice)
        case "run":
            return _run(body, check, voice)
        case "codes":
            return ", ".join(body["codes"]) or voice.words.say("no codes")
        case _:
            return str(body.get("words", ""))


def option_of(check: Check, id: str) -> Option | None:
    """The option of a choice check."""
    options = check.answer.options if isinstance(check.answer, ChoiceAnswer) else ()
    return next((option for option in options if option.id == id), None)


def _repeated(body: Mapping[str, Any], said: str, voice: Voice) -> str:
    repeats = body.get("repeats") or []
    if len(repeats) < 2:
        return said
    return voice.words.say("%(value)s (mean of %(count)s readings)", value=said, count=len(repeats))


def _spread(body: Mapping[str, Any], check: Check, voice: Voice) -> str:
    labels = {point.id: point.label for point in check.answer.points} if isinstance(check.answer, SpreadAnswer) else {}
    values, unit = body["values"], body["unit"]
    return ", ".join(f"{labels.get(point, point)} {_plain(values[point], unit, check, voice)}" for point in values)


def _run(body: Mapping[str, Any], check: Check, voice: Voice) -> str:
    samples = body["samples"]
    if not samples:
        return voice.words.say("no readings")
    (begin, first), (end, last) = samples[0], samples[-1]
    time = with_unit(voice.words.number(end - begin, 0), "s", voice.words)
    if body["unit"] == "{drop}":
        return voice.words.count("%(num)s drop in %(time)s", "%(num)s drops in %(time)s", round(last), time=time)
    if len(samples) == 1:
        return _plain(first, body["unit"], check, voice)
    said = [_plain(value, body["unit"], check, voice) for value in (first, last)]
    return voice.words.say("from %(first)s to %(last)s in %(time)s", first=said[0], last=said[1], time=time)


def _plain(value: float, unit: str, check: Check, voice: Voice) -> str:
    return with_unit(voice.words.number(value, decimals_of(check, unit, voice)), unit, voice.words)


def say_limit(limit: Limit, bound: float | None, check: Check, unit: str | None, voice: Voice) -> str:
    """The limit as a sentence part: which quantity, which side, which number.

    unit: that of the reading; the limit is said in it, with its own unit beside it where the two differ.
    """
    if bound is None:
        return voice.words.say("limit: the maker's figure, which was not at hand")
    figure = _figure(limit, bound, check, unit, voice)
    if limit.above is not None or (limit.maker is not None and limit.maker.is_ == "above"):
        said = voice.words.say("not more than %(figure)s", figure=figure)
    else:
        said = voice.words.say("not less than %(figure)s", figure=figure)
    return f"{_of(limit, voice)} {said}"


def _figure(limit: Limit, bound: float, check: Check, unit: str | None, voice: Voice) -> str:
    own = _plain(bound, limit.unit, check, voice)
    if unit is None or unit == limit.unit or not voice.units.compatible(unit, limit.unit):
        return own
    convert = voice.units.convert_difference if limit.of in ("range", "side-difference") else voice.units.convert
    return f"{_plain(convert(bound, limit.unit, unit), unit, check, voice)} ({own})"


def _of(limit: Limit, voice: Voice) -> str:
    return {
        "value": voice.words.say("limit:"),
        "min": voice.words.say("limit for the lowest:"),
        "max": voice.words.say("limit for the highest:"),
        "range": voice.words.say("limit for highest less lowest:"),
        "side-difference": voice.words.say("limit for left against right:"),
    }[limit.of]
