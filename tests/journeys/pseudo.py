"""A language nobody speaks: every English text in Arabic letters, somewhat longer, for what runs from right to left."""

import json
import re
from pathlib import Path

ENGLISH = Path(__file__).resolve().parents[2] / "frontend" / "src" / "words" / "en"
LETTERS = dict(zip("abcdefghijklmnopqrstuvwxyz", "ابجدهوزحطيكلمنسعفصقرشتثخذض", strict=True))
DIGITS = dict(zip("0123456789", "٠١٢٣٤٥٦٧٨٩", strict=True))
LONGER = 1.15


def right_to_left(text: str) -> str:
    """The text in Arabic letters and digits, somewhat longer; names in braces stay."""
    parts = re.split(r"(\{\w+\})", text.lower())
    turned = [
        part if part.startswith("{") else "".join((LETTERS | DIGITS).get(sign, sign) for sign in part) for part in parts
    ]
    longer = "ـ" * round((LONGER - 1) * len(text.split(" ", maxsplit=1)[0]))
    return "".join([*turned[:1], longer, *turned[1:]])


def pseudo_catalogue() -> dict[str, str]:
    """Every English text, turned."""
    texts: dict[str, str] = {}
    for path in sorted(ENGLISH.glob("*.json")):
        texts |= json.loads(path.read_text(encoding="utf-8"))
    return {key: right_to_left(text) for key, text in texts.items()}
