"""The workshop's unit table as the book carries it, and the shared vectors, for the tests of this room."""

import json
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from baycard.measure.units import Units

ROOT = Path(__file__).parents[3]
VECTORS = ROOT / "tests" / "vectors"
DIMENSIONS = ("m", "kg", "s", "A", "K", "mol", "cd", "rad")


@cache
def unit_rows() -> dict[str, list[dict[str, Any]]]:
    """The rows of units.yaml as written."""
    rows: dict[str, list[dict[str, Any]]] = yaml.safe_load((ROOT / "seed_checklists" / "units.yaml").read_text())
    return rows


@cache
def unit_table() -> dict[str, Any]:
    """The rows in the JSON form of the book."""
    rows = unit_rows()
    return {
        "atoms": {row["code"]: _atom(row) for row in rows["atoms"]},
        "prefixes": {row["code"]: float(Fraction(row["factor"])) for row in rows["prefixes"]},
    }


def _atom(row: dict[str, Any]) -> dict[str, Any]:
    offset = {"offset": float(Fraction(row["offset"]))} if "offset" in row else {}
    dim = [row["dim"].get(name, 0) for name in DIMENSIONS]
    return {
        "factor": float(Fraction(row["factor"])),
        **offset,
        "dim": dim,
        "says": row["says"],
        "metric": row["metric"],
    }


@cache
def units() -> Units:
    """The units of the workshop."""
    return Units(unit_table())  # type: ignore[arg-type]


def vectors(name: str) -> list[dict[str, Any]]:
    """The cases of one shared vector file."""
    cases: list[dict[str, Any]] = json.loads((VECTORS / f"measure-{name}.json").read_text())["cases"]
    return cases


def examples() -> list[dict[str, Any]]:
    """The worked examples with their sources, of all files."""
    files = sorted((ROOT / "seed_checklists" / "examples").glob("*.json"))
    return [example for file in files for example in json.loads(file.read_text())]
