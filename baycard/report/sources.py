"""Where a limit comes from: the names of documents as published, what we say about them in the report's language."""

from baycard.report.words import Words

DATA, PRACTICE, MEMORY = "maker's data", "common practice", "from memory"


def say_source(source: str, basis: str | None, words: Words) -> str:
    """The source, with its kind unless it is a published document or says so itself."""
    said = _in_words(source, words)
    kinds = {
        DATA: words.say("maker's data"),
        PRACTICE: words.say("common practice"),
        MEMORY: words.say("from memory, not looked up"),
    }
    kind = kinds.get(basis or "")
    return f"{said} ({kind})" if kind and str(basis) not in source else said


def _in_words(source: str, words: Words) -> str:
    """The source with the phrases that are ours, not a document's, in the report's language; the longest first."""
    phrases = {
        "common practice, no published figure found": words.say("common practice, no published figure found"),
        "common practice, no published standard found": words.say("common practice, no published standard found"),
        "common practice, no standard found": words.say("common practice, no published standard found"),
        "maker's data for this vehicle": words.say("maker's data for this vehicle"),
        "Directive 2014/45/EU, Annex I": words.say("Directive 2014/45/EU, Annex I"),
        "grade by common practice": words.say("grade by common practice"),
        "plate of this vehicle": words.say("plate of this vehicle"),
        "grade of": words.say("grade of"),
        "maker's data": words.say("maker's data"),
        "common practice": words.say("common practice"),
        "from memory": words.say("from memory"),
    }
    for ours, said in phrases.items():
        source = source.replace(ours, said)
    return source
