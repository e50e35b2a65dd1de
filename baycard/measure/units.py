"""Units of measurement by UCUM code: reading a code, and converting values between units of one dimension."""

import math
import re
from dataclasses import dataclass

from baycard.measure.book import Atom, UnitTable
from baycard.measure.errors import MeasureError

LONGEST_CODE = 80
LARGEST_EXPONENT = 12
_DIMENSIONS = 8
_TOKEN = re.compile(r"\{[^{}]*\}|\[[^\[\]]*\]|[./()]|[^./(){}\[\]]")


@dataclass(frozen=True, slots=True)
class Unit:
    """What a code means: base value = factor * value + offset; dim holds exponents of m, kg, s, A, K, mol, cd, rad."""

    factor: float
    dim: tuple[int, ...]
    offset: float = 0.0


ONE = Unit(1.0, (0,) * _DIMENSIONS)


class Units:
    """Converts between the units of one table.

    table: atoms and prefixes of the book. Codes follow UCUM: `Pa.m3/s`, `L/(100.km)`, `/K`, `{rev}/min`. A temperature
    scale with an offset converts as a scale only when it stands alone; inside a compound it counts as its step.
    """

    def __init__(self, table: UnitTable) -> None:
        self._table = table
        self._known: dict[str, Unit] = {}

    def read(self, code: str) -> Unit:
        """What a code means. Raises MeasureError `unknown-unit`."""
        unit = self._known.get(code)
        if unit is None:
            unit = _Reader(code, self._table).read()
            self._known[code] = unit
        return unit

    def compatible(self, a: str, b: str) -> bool:
        """Whether both codes are known and measure the same kind of quantity."""
        try:
            return self.read(a).dim == self.read(b).dim
        except MeasureError:
            return False

    def convert(self, value: float, source: str, target: str) -> float:
        """The same quantity in another unit, offsets of temperature scales included.

        Raises MeasureError `unknown-unit`, `wrong-unit` (other dimension), `not-a-number`.
        """
        a, b = self._pair(source, target)
        _number(value)
        if source == target:
            return float(value)
        if a.offset == 0 and b.offset == 0:
            return _finite(value * a.factor / b.factor)
        return _finite((value * a.factor + a.offset - b.offset) / b.factor)

    def convert_difference(self, value: float, source: str, target: str) -> float:
        """The same difference, spread or uncertainty in another unit: factors only, no offset.

        Raises MeasureError `unknown-unit`, `wrong-unit` (other dimension), `not-a-number`.
        """
        a, b = self._pair(source, target)
        _number(value)
        return float(value) if source == target else _finite(value * a.factor / b.factor)

    def _pair(self, source: str, target: str) -> tuple[Unit, Unit]:
        a, b = self.read(source), self.read(target)
        if a.dim != b.dim:
            raise MeasureError("wrong-unit", f"{source} does not measure the same thing as {target}")
        return a, b


def _number(value: float) -> None:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise MeasureError("not-a-number", "give a number")


def _finite(value: float) -> float:
    if not math.isfinite(value):
        raise MeasureError("outside-domain", "the converted value is beyond what can be counted")
    return value


class _Reader:
    """Reads one code from left to right."""

    def __init__(self, code: str, table: UnitTable) -> None:
        self._code = code
        self._table = table
        if len(code) > LONGEST_CODE:
            raise self._unknown()
        self._rest = _words(code)
        if "".join(self._rest) != code:
            raise self._unknown()

    def read(self) -> Unit:
        """The whole code as one unit."""
        unit = self._term()
        if self._rest:
            raise self._unknown()
        return unit

    def _term(self) -> Unit:
        if self._next() == "/":
            self._rest.pop(0)
            unit = _times(ONE, self._component(), -1)
        else:
            unit = self._component()
        while self._next() in (".", "/"):
            sign = 1 if self._rest.pop(0) == "." else -1
            unit = _times(unit, self._component(), sign)
        return unit

    def _component(self) -> Unit:
        word = self._rest.pop(0) if self._rest else ")"
        if word == "(":
            unit = self._term()
            if self._next() != ")":
                raise self._unknown()
            self._rest.pop(0)
            return unit
        return self._simple(word)

    def _simple(self, word: str) -> Unit:
        """A number, an annotation, or an atom with its prefix, exponent and annotation."""
        bare = re.sub(r"\{[^{}]*\}\Z", "", word)
        if word and not bare:
            return ONE
        if re.fullmatch(r"[0-9]{1,15}", bare):
            return self._scaled(float(bare))
        found = self._atom(bare)
        if found:
            return found
        power = re.fullmatch(r"(.*[^0-9+-])([+-]?[0-9]{1,2})", bare, re.DOTALL)
        base = self._atom(power[1]) if power else None
        if not power or not base or not 0 < abs(int(power[2])) <= LARGEST_EXPONENT:
            raise self._unknown()
        return _times(ONE, base, int(power[2]))

    def _scaled(self, number: float) -> Unit:
        if number == 0:
            raise self._unknown()
        return Unit(number, ONE.dim)

    def _atom(self, word: str) -> Unit | None:
        atoms = self._table["atoms"]
        if word in atoms:
            return _unit(atoms[word], 1.0)
        for length in (1, 2):
            prefix, rest = word[:length], word[length:]
            if prefix in self._table["prefixes"] and rest in atoms and atoms[rest]["metric"]:
                return _unit(atoms[rest], self._table["prefixes"][prefix])
        return None

    def _next(self) -> str:
        return self._rest[0] if self._rest else ""

    def _unknown(self) -> MeasureError:
        return MeasureError(
            "unknown-unit", f"the unit {self._code[:LONGEST_CODE]!r} is not known; use a UCUM code such as kPa or mm"
        )


def _words(code: str) -> list[str]:
    """Signs (. / and brackets) and the words between them; braces and square brackets keep their contents together."""
    words: list[str] = []
    joining = False
    for token in _TOKEN.findall(code):
        sign = token in ("/", ".", "(", ")")
        if joining and not sign:
            words[-1] += token
        else:
            words.append(token)
        joining = not sign
    return words


def _unit(atom: Atom, prefix: float) -> Unit:
    return Unit(prefix * atom["factor"], tuple(atom["dim"]), atom.get("offset", 0.0))


def _times(a: Unit, b: Unit, exponent: int) -> Unit:
    """a * b^exponent, by repeated multiplication so that both languages round alike; an offset is left out."""
    factor = a.factor
    for _ in range(abs(exponent)):
        factor = factor * b.factor if exponent > 0 else factor / b.factor
    return Unit(factor, tuple(x + y * exponent for x, y in zip(a.dim, b.dim, strict=True)))
