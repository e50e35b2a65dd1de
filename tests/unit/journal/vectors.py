"""Reading the vectors that both languages share."""

import json
from pathlib import Path
from typing import Any

VECTORS = Path(__file__).parents[2] / "vectors"


def vectors(name: str) -> Any:
    """The content of tests/vectors/<name>.json."""
    return json.loads((VECTORS / f"{name}.json").read_text(encoding="utf-8"))
