"""The rules for the body of an answer, by what it `is`."""

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from baycard.journal.refusal import Refusal
from baycard.journal.rules import (
    Rule,
    both,
    form,
    is_object,
    list_of,
    number,
    one_of,
    shape,
    table_of,
    text,
    unit,
    whole,
)

MOST_REPEATS = 100
MOST_SAMPLES = 5_000
MOST_POINTS = 60
MOST_CODES = 200
LONGEST_RUN_S = 86_400
# A phone may round the mean it shows; a value further off than this was not made from these repeats.
MEAN_TOLERANCE = 0.005

ID = form(r"[a-z0-9.-]{1,80}", "a short name of small letters, digits, dots and dashes")
CODE = form(r"[A-Z0-9][A-Z0-9.-]{1,19}", "a trouble code such as P0299")
NOTE: dict[str, Rule] = {"note": text()}
WITH_INSTRUMENT: dict[str, Rule] = {"instrument": ID, **NOTE}
PAIR = list_of(number(), 2, 2)
SECONDS = number(0, LONGEST_RUN_S)


def _mean_of_repeats(value: object, path: str) -> Refusal | None:
    body: Mapping[str, Any] = value if is_object(value) else {}
    repeats = body.get("repeats")
    if repeats is None:
        return None
    scale = max(abs(one) for one in repeats)
    if abs(math.fsum(repeats) / len(repeats) - body["value"]) <= MEAN_TOLERANCE * scale:
        return None
    return Refusal("not-the-mean", f"{path}.value is not the mean of its repeats", "Take the mean of all repeats.")


def _in_time_order(value: object, path: str) -> Refusal | None:
    samples: list[tuple[float, float]] = list(value) if isinstance(value, list | tuple) else []
    if all(before[0] <= after[0] for before, after in pairwise(samples)):
        return None
    return Refusal("out-of-range", f"{path} runs back in time", "Send the readings in the order they were taken.")


def _sample(value: object, path: str) -> Refusal | None:
    refusal = PAIR(value, path)
    if refusal or not isinstance(value, list | tuple):
        return refusal
    return SECONDS(value[0], f"{path}[0]")


ANSWERS: dict[str, Rule] = {
    "choice": shape({"is": text(), "choice": ID}, NOTE),
    "number": both(
        shape(
            {"is": text(), "value": number(), "unit": unit()},
            {"typed": text(40, lines=False), "repeats": list_of(number(), MOST_REPEATS, 1), **WITH_INSTRUMENT},
        ),
        _mean_of_repeats,
    ),
    "spread": shape({"is": text(), "values": table_of(ID, number(), MOST_POINTS), "unit": unit()}, WITH_INSTRUMENT),
    "run": shape(
        {"is": text(), "samples": both(list_of(_sample, MOST_SAMPLES, 1), _in_time_order), "unit": unit()},
        WITH_INSTRUMENT,
    ),
    "codes": shape({"is": text(), "codes": list_of(CODE, MOST_CODES)}, NOTE),
    "text": shape({"is": text(), "words": text(filled=True)}, NOTE),
}
SORT = one_of(*ANSWERS)


def answer(value: object, path: str) -> Refusal | None:
    """The rule for an answer's body."""
    if not is_object(value):
        return Refusal("wrong-type", f"{path} is not an object", "Send named parts here.")
    sort = value.get("is")
    refusal = SORT(sort, f"{path}.is")
    return refusal or ANSWERS[str(sort)](value, path)


ROUND = whole(1, 99)
