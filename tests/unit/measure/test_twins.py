"""Python and TypeScript give the same answers, or refuse with the same code, on random work."""

import dataclasses
import random
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from baycard.measure.errors import MeasureError
from baycard.measure.functions import FUNCTIONS
from baycard.measure.tree import evaluate
from baycard.measure.verdict import Bounds, settle, verdict
from tests.unit.measure import jobs
from tests.unit.measure.gauges import Gauge
from tests.unit.measure.tables import units
from tests.unit.measure.twin import FRONTEND, Job, Twin, answers, bundle

MANY = 1_500
SEED = 20_261_120


@pytest.fixture(scope="module")
def twin(tmp_path_factory: pytest.TempPathFactory) -> Twin:
    if not (FRONTEND / "node_modules").is_dir():
        pytest.skip("the front end's packages are not installed (npm ci)")
    script: Path = bundle(tmp_path_factory.mktemp("twin"))
    return partial(answers, script)


def ours(job: Job) -> dict[str, Any]:
    try:
        return {"value": plain(work(job))}
    except MeasureError as error:
        return {"code": error.code}


def work(job: Job) -> Any:
    match job["do"]:
        case "tree":
            return evaluate(job["tree"], job["inputs"])
        case "unit":
            unit = units().read(job["code"])
            return [unit.factor, unit.offset, *unit.dim]
        case "function":
            return FUNCTIONS[job["function"]].work(job["inputs"], units())
        case "verdict":
            return verdict(job["value"], job["u"], Bounds(**job["bounds"]), job["k"])
        case "settle":
            others = {id: Gauge(**one) for id, one in job["others"].items()}
            return dataclasses.asdict(settle(job["values"], Gauge(**job["gauge"]), Bounds(**job["bounds"]), others))
    raise AssertionError(job)


def plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: plain(item) for name, item in value.items()}
    return [plain(item) for item in value] if isinstance(value, list | tuple) else value


def differing(
    mine: Sequence[dict[str, Any]], theirs: Sequence[dict[str, Any]], work: Sequence[Job], rtol: float
) -> list[Any]:
    assert len(mine) == len(theirs)
    return [
        job | {"python": a, "typescript": b}
        for a, b, job in zip(mine, theirs, work, strict=True)
        if not same(a, b, rtol)
    ]


def same(a: Any, b: Any, rtol: float) -> bool:
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(same(a[name], b[name], rtol) for name in a)
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(same(x, y, rtol) for x, y in zip(a, b, strict=True))
    if is_number(a) and is_number(b):
        return bool(abs(a - b) <= rtol * max(abs(a), abs(b)))
    return type(a) is type(b) and bool(a == b)


def is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def compare(twin: Twin, work: list[Job], rtol: float) -> list[dict[str, Any]]:
    """Both answers agree on every job; gives ours."""
    mine = [ours(job) for job in work]
    wrong = differing(mine, twin(work), work, rtol)
    assert not wrong, f"{len(wrong)} of {len(work)} differ, the first: {wrong[0]}"
    return mine


def share_with_value(outcomes: list[dict[str, Any]]) -> float:
    return sum("value" in one for one in outcomes) / len(outcomes)


def test_arithmetic_agrees_to_the_last_digit(twin: Twin) -> None:
    dice = random.Random(SEED)
    work: list[Job] = [
        {"do": "tree", "tree": jobs.arithmetic(dice, dice.randint(1, 6)), "inputs": jobs.INPUTS} for _ in range(MANY)
    ]
    outcomes = compare(twin, work, 0)
    assert 0.3 < share_with_value(outcomes) < 0.95


def test_roots_powers_and_angles_agree_to_twelve_digits(twin: Twin) -> None:
    dice = random.Random(SEED + 1)
    work: list[Job] = [{"do": "tree", "tree": jobs.smooth(dice), "inputs": {}} for _ in range(MANY)]
    assert share_with_value(compare(twin, work, 1e-12)) > 0.1


def test_rubbish_is_refused_with_the_same_code(twin: Twin) -> None:
    dice = random.Random(SEED + 2)
    made = [jobs.rubbish(dice, 3) for _ in range(MANY)]
    work: list[Job] = [{"do": "tree", "tree": one, "inputs": jobs.INPUTS} for one in made if isinstance(one, list)]
    codes = {one.get("code") for one in compare(twin, work, 1e-12)}
    assert {"unknown-method", "not-a-number", "missing-input"} <= codes


def test_units_are_read_alike(twin: Twin) -> None:
    dice = random.Random(SEED + 3)
    work: list[Job] = [{"do": "unit", "code": jobs.unit_code(dice)} for _ in range(MANY)]
    assert 0.1 < share_with_value(compare(twin, work, 0)) < 0.9


def test_functions_agree_at_and_beyond_their_edges(twin: Twin) -> None:
    dice = random.Random(SEED + 4)
    work: list[Job] = [jobs.function_job(dice) for _ in range(MANY // 3)]
    assert 0.3 < share_with_value(compare(twin, work, 1e-9)) < 0.95


def test_tricky_words_are_read_or_refused_alike(twin: Twin) -> None:
    outcomes = compare(twin, jobs.tricky_jobs(random.Random(SEED + 6)), 1e-12)
    assert 0.02 < share_with_value(outcomes) < 0.5


def test_verdicts_and_what_settles_them_agree(twin: Twin) -> None:
    dice = random.Random(SEED + 5)
    work: list[Job] = [jobs.verdict_job(dice) for _ in range(MANY)]
    states = {one["value"] for one in compare(twin, work, 0) if isinstance(one["value"], str)}
    assert states == {"in-order", "beyond", "too-close", "recorded"}


def test_the_comparison_can_fail() -> None:
    assert not same({"value": 1.0}, {"value": 1.0 + 1e-9}, 1e-12)
    assert not same({"value": 1.0}, {"code": "outside-domain"}, 1e-12)
    assert not same({"value": True}, {"value": 1}, 1e-12)
    assert not same({"value": [1.0]}, {"value": [1.0, 2.0]}, 1e-12)
    assert same({"value": [1.0]}, {"value": [1]}, 0)
