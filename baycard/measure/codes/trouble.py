"""Diagnostic trouble codes: two bytes to five characters and back, lists as they come over the wire, who defines them.

Sources: SAE J2012 / ISO 15031-6 (format and groups), SAE J1979 (service 03). The split of P3 is from memory.
"""

import re
from collections.abc import Sequence

from baycard.measure.errors import MeasureError

SYSTEMS = "PCBU"
ANSWERS = (0x43, 0x47, 0x4A)
"""Replies with codes: stored, pending, permanent."""
GENERIC = ("P0", "P2", "B0", "C0", "U0")
MAKERS = ("P1", "B1", "B2", "C1", "C2", "U1", "U2")


def decode(octets: Sequence[int]) -> str:
    """The code of two bytes; 0000 is padding and no code. Raises MeasureError `outside-domain`."""
    if len(octets) != 2 or octets[0] == octets[1] == 0:
        raise MeasureError("outside-domain", "a trouble code is two bytes that are not both zero")
    return f"{SYSTEMS[octets[0] >> 6]}{octets[0] >> 4 & 3}{octets[0] & 15:X}{octets[1]:02X}"


def encode(code: str) -> str:
    """The two bytes of a code, as four hexadecimal digits."""
    plain = _checked(code)
    return f"{SYSTEMS.index(plain[0]) << 2 | int(plain[1]):X}{plain[2:]}"


def listed_can(octets: Sequence[int]) -> list[str]:
    """The codes of a reply on CAN, where the byte behind the service is their number."""
    _check_answer(octets)
    count = octets[1] if len(octets) > 1 else -1
    if not 0 <= count <= (len(octets) - 2) // 2:
        raise MeasureError("outside-domain", "the reply is shorter than the number of codes it names")
    return _pairs(octets[2 : 2 + 2 * count])


def listed_older(octets: Sequence[int]) -> list[str]:
    """The codes of a reply on a bus older than CAN: no number, padded with zeros."""
    _check_answer(octets)
    if len(octets) % 2 == 0:
        raise MeasureError("outside-domain", "the reply ends in half a code")
    return _pairs(octets[1:])


def controlled_by(code: str) -> str:
    """Who defines a code: `ISO/SAE`, `manufacturer`, `ISO/SAE reserved`, or `mixed`."""
    plain = _checked(code)
    if plain.startswith(GENERIC):
        return "ISO/SAE"
    if plain.startswith(MAKERS):
        return "manufacturer"
    if plain.startswith("P3"):
        return "manufacturer" if plain[2] < "4" else "ISO/SAE reserved"
    return "mixed" if plain.startswith("U3") else "ISO/SAE reserved"


def _checked(code: str) -> str:
    if not re.fullmatch(r"[PCBUpcbu][0-3][0-9A-Fa-f]{3}", code):
        raise MeasureError("outside-domain", "a trouble code reads like P0420")
    return code.upper()


def _check_answer(octets: Sequence[int]) -> None:
    if not octets or octets[0] not in ANSWERS:
        raise MeasureError("outside-domain", "a reply with codes begins with 43, 47 or 4A")


def _pairs(octets: Sequence[int]) -> list[str]:
    pairs = [octets[i : i + 2] for i in range(0, len(octets), 2)]
    return [decode(pair) for pair in pairs if any(pair)]
