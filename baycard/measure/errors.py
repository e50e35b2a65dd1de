"""The closed set of things that can be wrong with a measurement or a calculation."""

from typing import Literal, get_args

ErrorCode = Literal[
    "missing-input",
    "out-of-range",
    "wrong-unit",
    "unknown-unit",
    "not-a-number",
    "outside-domain",
    "too-large",
    "unknown-method",
]
ERROR_CODES: tuple[ErrorCode, ...] = get_args(ErrorCode)


class MeasureError(Exception):
    """A calculation that has no answer.

    code: one of ERROR_CODES, for programs; detail: what is wrong with which input, for people.
    """

    def __init__(self, code: ErrorCode, detail: str) -> None:
        super().__init__(f"{code}: {detail}")
        self.code: ErrorCode = code
        self.detail = detail
