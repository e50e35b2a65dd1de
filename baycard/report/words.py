"""The report's language: texts from gettext catalogues, dates and numbers as that language writes them."""

import gettext
from datetime import datetime
from io import BytesIO
from pathlib import Path

from babel import Locale
from babel.dates import format_date
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.numbers import format_decimal

CATALOGUES = Path(__file__).parent.parent / "locale"


class Words:
    """Says texts, counts, dates and numbers in one language; a text without a translation stays English."""

    def __init__(self, language: str = "en", catalogues: Path = CATALOGUES) -> None:
        self.language = language
        self.locale = Locale.parse(language, sep="-")
        self.translations = _catalogue(catalogues / language / "LC_MESSAGES" / "report.po")

    def say(self, text: str, **parts: object) -> str:
        """The text in this language with its parts filled in."""
        translated = self.translations.gettext(text)
        return translated % parts if parts else translated

    def count(self, one: str, many: str, number: int, **parts: object) -> str:
        """The text for so many things, `%(num)s` being the number."""
        return self.translations.ngettext(one, many, number) % {"num": number, **parts}

    def date(self, iso: str) -> str:
        """The day of an entry's `made_at`; the text itself when it is not a time."""
        try:
            form = "d MMMM y" if self.language == "en" else "long"
            return format_date(datetime.fromisoformat(iso), form, locale=self.locale)
        except ValueError:
            return iso

    def number(self, value: float, decimals: int) -> str:
        """The number with at least `decimals` places, one more where the value has it."""
        places = min(max(decimals, 0) + 1, _places(value))
        places = max(places, decimals, 0)
        return format_decimal(round(value, places), "#,##0." + "0" * places, locale=self.locale)


def _places(value: float) -> int:
    digits = f"{value:.6f}".rstrip("0")
    return len(digits) - digits.index(".") - 1


def _catalogue(path: Path) -> gettext.NullTranslations:
    """The catalogue compiled in memory, so that nothing compiled has to be kept beside its source."""
    if not path.exists():
        return gettext.NullTranslations()
    compiled = BytesIO()
    with path.open("rb") as source:
        write_mo(compiled, read_po(source))
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)
