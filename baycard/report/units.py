"""Units as people write them, in the report's language."""

from baycard.report.words import Words

SIGNS = {
    "[mi_i]": "mi", "Cel": "°C", "[degF]": "°F", "[psi]": "psi", "[in_i]": "in", "[ft_i]": "ft", "[lbf_av]": "lbf",
    "[ft_i].[lbf_av]": "lbf·ft", "{drop}": "", "deg": "°", "Ohm": "Ω", "kOhm": "kΩ", "mOhm": "mΩ", "um": "µm",
    "N.m": "N·m", "A.h": "Ah", "1": "", "{count}": "", "/min": "1/min", "{rpm}": "rpm", "[pt_us]": "US pt",
    "[gal_us]": "US gal", "'": "′", "mm[Hg]": "mmHg", "[in_i'Hg]": "inHg", "mL": "ml", "[in_i]/32": "/32 in",
    "[qt_us]": "US qt", "[foz_us]": "US fl oz", "[lb_av]": "lb", "L/(100.km)": "L/100 km",
}  # fmt: skip
PER_THOUSAND_KM = {"L/(1000.km)": "L", "mm/(1000.km)": "mm"}
CLOSE_UP = ("", "°", "′", "/32 in")


def say_unit(code: str, words: Words) -> str:
    """A UCUM code as people write it; a code not in the tables stays as it is."""
    if code in PER_THOUSAND_KM:
        return f"{PER_THOUSAND_KM[code]}/{words.number(1000, 0)}\N{NO-BREAK SPACE}km"
    said = {
        "{drop}/min": words.say("drops/min"),
        "10*-3.[in_i]": words.say("thousandths of an inch"),
        "d": words.say("days"),
        "mo": words.say("months"),
        "a": words.say("years"),
    }
    return said.get(code) or SIGNS.get(code, code.replace(".", "·"))


def with_unit(number: str, code: str, words: Words) -> str:
    """A number and its unit, kept together by a no-break space where one belongs."""
    unit = say_unit(code, words)
    return number + unit if unit in CLOSE_UP else f"{number}\N{NO-BREAK SPACE}{unit}"
