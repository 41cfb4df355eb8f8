"""What stopped a template, in words for its writer instead of Jinja's and Python's own."""

from __future__ import annotations

from jinja2.exceptions import SecurityError, TemplateError

from stitchproof.expansion.spent import TooMuchText
from stitchproof.late_pattern import LatePattern

CORRECT = "correct it here"
_KINDS = {"int": "a number", "float": "a number", "bool": "yes or no", "NoneType": "nothing", "str": "a text"}
_OURS = tuple(
    (LatePattern(pattern), ours, help_text)
    for pattern, ours, help_text in (
        (
            r"'(\w+)' object is not iterable",
            "a list is needed here, and this is {0}",
            "give it a list, `[1, 2]`, or `upto(…)`",
        ),
        (
            r"cannot unpack non-iterable (\w+) object",
            "the loop has several names, and each item of its list is {0}",
            "give it one name",
        ),
        (
            r"(?:not enough|too many) values to unpack",
            "it gives more or fewer names than its value has parts",
            "give it one name for each part",
        ),
        (
            r"(?:list|tuple|range|str) object has no element (.+)",
            "the list has no item [{0}]",
            "count its items from 0",
        ),
        (r"dict object' has no attribute (.+)", "the list has no item {0}", CORRECT),
        (r"[Nn]o test named '(\w+)'", "texts have no test `{0}`", CORRECT),
        (r"[Nn]o filter named '(\w+)'", "texts have no filter `{0}`", CORRECT),
        (
            r"not supported between instances of '(\w+)' and '(\w+)'",
            "{0} and {1} cannot be compared",
            "compare texts with texts, and numbers with numbers",
        ),
        (r"macro '(\w+)' takes not more than", "the macro `{0}` is given more than it takes", CORRECT),
        (r"macro '(\w+)' takes no keyword argument '(\w+)'", "the macro `{0}` takes no `{1}`", CORRECT),
        (r"macro '(\w+)' was invoked", "the macro `{0}` takes no block", CORRECT),
        (r"block '(\w+)' defined twice", "the block `{0}` stands here twice", "give one of the two another name"),
        (r"missing \d+ required", "a filter or test is given too few values", CORRECT),
        (r"takes .*positional arguments? but", "a filter or test is given too many values", CORRECT),
        (r"[Nn]o (\w+) item, sequence was empty", "what has nothing in it has no {0} item", CORRECT),
        (r"division by zero|by zero", "it divides by zero", CORRECT),
    )
)
_PYTHON = LatePattern(r"\b(?:object|argument|operand|instance|NoneType|int|str|Fraction|keyword)\b")


def in_trade_words(error: BaseException) -> tuple[str, str]:
    """Why a template stopped, in one clause, and what to do about it."""
    if isinstance(error, TooMuchText):
        return error.why, CORRECT
    if isinstance(error, RecursionError):
        return "a macro or a text calls itself without end", CORRECT
    if isinstance(error, SyntaxError | MemoryError):
        return "what stands in {{ }} and {% %} is nested too deeply", "nest less"
    if isinstance(error, SecurityError):
        return (
            "a text can call macros, and nothing else" if "callable" in str(error) else "this is out of its reach"
        ), CORRECT
    said = str(error).split("\n")[0]
    for pattern, ours, help_text in _OURS:
        if found := pattern.search(said):
            return ours.format(*(_KINDS.get(each, each) for each in found.groups())), help_text
    if isinstance(error, TemplateError | TypeError) and not _PYTHON.search(said):
        return said[:1].lower() + said[1:].rstrip("."), CORRECT
    return "a part of it does not fit the rest", "write what stands in {{ }} and {% %} here in a simpler way"
