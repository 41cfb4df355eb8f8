"""What an abbreviation of a stitch looks like, so that an unknown one is told from an ordinary word."""

from __future__ import annotations

from stitchproof.late_pattern import LatePattern

# A letter first: it is looked for faster than what may not stand before it.
WORD = LatePattern(r"[A-Za-z](?<![\w@/.'’-][A-Za-z])[A-Za-z0-9]*(?:-[A-Za-z0-9]+)*(?![\w@'’-])")
_WORKED = r"(?:\d?tog|inc|dec|blo|flo|bl|fl|cl)?"
_STITCH = LatePattern(rf"[a-z]{{0,3}}(?:hdc|hdtr|htr|dtr|ttr|sc|dc|tr){_WORKED}|[a-z]*\dtog|[a-z]+\d(?:tg|to|tgo|otg)")
_LETTER_STITCH = LatePattern(r"[A-Za-z]-sts?")
_ONLY_US = LatePattern(rf"[a-z]{{0,3}}(?:hdc|sc){_WORKED}", needs=("hdc", "sc"))
_ONLY_UK = LatePattern(rf"[a-z]{{0,3}}htr{_WORKED}|ttr", needs=("htr", "ttr"))
_NO_VOWEL = LatePattern(r"[b-df-hj-np-tv-xz]{3,6}")
_ORDINARY = frozenset(
    {
        "disc",
        "misc",
        "lbs",
        "yds",
        "cms",
        "mms",
        "pcs",
        "hrs",
        "mtr",
        "mtrs",
        "nth",
        "xth",
        "kgs",
        "pts",
        "lhs",
        "rhs",
        "ltd",
        "tsp",
        "tbsp",
        "hmm",
        "shh",
        "psst",
        "pvc",
        "dpn",
        "dpns",
    }
)
"""Words of other subjects that have the shape by chance."""
BY_OTHER_SPELLING = {
    "US": {"ss": "sl st", "slst": "sl st", "sl-st": "sl st"},
    "UK": {"sk": "miss", "yo": "yrh", "slst": "ss", "sl-st": "ss"},
}
"""Spellings in use that the lexicon of these terms does not list, each with the one that it does."""


def has_stitch_shape(word: str, known: frozenset[str]) -> bool:
    """Whether a word that nobody knows must be meant for an abbreviation. known: all spellings of the lexicon, folded."""
    folded = word.lower()
    if folded in _ORDINARY or (word.isupper() and not any(each.isdigit() for each in word)):
        return False
    if folded.endswith("s") and folded[:-1] in known:
        return False
    if _LETTER_STITCH.fullmatch(word) or _STITCH.fullmatch(folded.replace("-", "")):
        return True
    return bool(_NO_VOWEL.fullmatch(folded)) and any(_one_slip_apart(folded, each) for each in known)


def is_of_other_terms(word: str, terms: str) -> bool:
    """Whether a word is built on a stitch name that only the other terms have: fphdc in UK terms, htr3tog in US terms."""
    folded = word.lower().replace("-", "")
    return folded not in _ORDINARY and bool((_ONLY_US if terms == "UK" else _ONLY_UK).fullmatch(folded))


def in_these_terms(word: str, terms: str) -> str:
    """Such a word with its stitch named in these terms."""
    pairs = (("hdc", "htr"), ("sc", "dc")) if terms == "UK" else (("htr", "hdc"), ("ttr", "dtr"))
    for other, ours in pairs:
        if other in word.lower():
            return word.lower().replace(other, ours)
    return word


def _one_slip_apart(word: str, known: str) -> bool:
    """One letter too many, too few or wrong, or two changed about; only for known words without vowels."""
    if word == known or not _NO_VOWEL.fullmatch(known) or abs(len(word) - len(known)) > 1:
        return False
    short, long = sorted((word, known), key=len)
    if len(short) < len(long):
        return any(long[:at] + long[at + 1 :] == short for at in range(len(long)))
    differing = [at for at in range(len(word)) if word[at] != known[at]]
    swapped = len(differing) == 2 and differing[1] == differing[0] + 1
    return len(differing) == 1 or (swapped and sorted(word) == sorted(known))
