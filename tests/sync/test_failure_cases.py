"""The table of failure cases names tests that exist."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROW = re.compile(r"^\| (\d+) \| ([^|]+) \| ([^|]+) \| (covered|in part: [^|]+|not covered: [^|]+) \|$", re.MULTILINE)
NAMED = re.compile(r"`([^`:]+\.(?:py|ts|tsx))::([^`]+)`")
TABLE = (ROOT / "docs" / "failure-cases.md").read_text()


def test_the_table_has_every_case_once_and_says_its_state() -> None:
    assert [int(number) for number, *_ in ROW.findall(TABLE)] == list(range(1, 29))


def test_every_case_that_is_covered_names_a_test() -> None:
    bare = [
        case for _, case, tests, state in ROW.findall(TABLE) if not state.startswith("not") and not NAMED.search(tests)
    ]
    assert bare == []


def test_every_test_that_is_named_exists() -> None:
    missing = [f"{path}::{name}" for path, name in NAMED.findall(TABLE) if not _is_there(ROOT / path, name)]
    assert missing == []


def _is_there(path: Path, name: str) -> bool:
    if not path.is_file():
        return False
    text = path.read_text()
    if path.suffix == ".py":
        return f"def {name}(" in text
    return f'test("{name}"' in text or f'it("{name}"' in text
