"""Signs that no formula has, and what to type instead of them."""

from __future__ import annotations

from unicodedata import category

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.faults.formula_not_readable import formula_not_readable
from stitchproof.source import Span


def sign_without_meaning(here: Span) -> Diagnostic:
    """The report of a sign that no formula has; one that nobody can see is told by its number in Unicode."""
    sign = here.text
    if category(sign) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"):
        return formula_not_readable(here, f"a sign that does not show stands here (U+{ord(sign):04X})", "take it out")
    if category(sign) in ("Mn", "Me", "Mc"):
        what = f"a mark without a letter stands here (U+{ord(sign):04X})"
        return formula_not_readable(here, what, "type the letter and its mark as one sign, or leave the mark out")
    return formula_not_readable(here, f"`{sign}` has no meaning in a formula", _sign_help(sign))


def _sign_help(sign: str) -> str:
    if sign.isdecimal():
        return "write numbers with the digits 0 to 9"
    helps = {
        "[": "in a formula use round brackets; a list of one value per size stands alone",
        "'": "a formula has no words in quotes",
        '"': "a formula has no words in quotes",
        "&": "write `and`",
        "|": "write `or`",
        "^": "write the product out, `a * a`",
        "½": "write it with a point, 15.5 for 15½",
        "¼": "write it with a point, 15.25 for 15¼",
        "¾": "write it with a point, 15.75 for 15¾",
        "²": "write the product out, `a * a`",
    }
    return helps.get(sign, "use + - * /, comparisons, round brackets, numbers with units, and names")
