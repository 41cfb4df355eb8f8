"""What an item is, and what in it can hurt a child: the words that call for a shipped caution.

The rules, their ages, items and triggers are those of standards/safety.yaml; the words that patterns write for them are common
practice, no source.
"""

from __future__ import annotations

import re

from msgspec import Struct

from stitchproof.late_pattern import LatePattern

_HEAD = r"hats?|bonnets?|beanies?|(?<!sleeve )caps?|helmets?"
_HANDS_AND_FEET = r"mittens?|mitts?|socks?|booti?ee?s?|booties"
_GARMENT = (
    r"garments?|cardigans?|jackets?|coats?|capes?|ponchos?|dress(?:es)?|sweaters?|jumpers?|pullovers?|tops?|vests?|rompers?"
    r"|hoodies?|waistcoats?|tunics?"
)
_COVER = r"blankets?|afghans?|throws?"
_TOY = r"toys?|amigurumi|dolls?|teddy|plush(?:ies?)?|loveys?|lovies|comforters?"
_TIE = r"ties?|cords?|strings?|drawstrings?|ribbons?(?! (?:yarn|stitch))|laces"
_CORD = r"\b(?:cords?|ribbons?|strings?)\b(?![\s-]+(?:yarn|st\b|stitch|edging|trim|bind|cast|of\s+ch))"
_NECK = r"(?:neck(?:s|lines?|bands?|holes?)?|hoods?|collars?)\b"
_WORDS = r"(?:[^.;]|\.(?=\d))"
"""Within a sentence: a point between digits ends none."""
_PUT_IN = r"(?:thread|weave|lace|run|draw|pull|pass|insert|attach|sew|slip)"
_PLACED_TIE = rf"(?:%s)[\s-]+(?:{_TIE})\b"


class Danger(Struct, frozen=True):
    """When a shipped caution is due. item: what is made; sign: what in the text makes it risky (None: the item itself)."""

    rule: str
    ages: tuple[str, ...]
    item: LatePattern
    sign: LatePattern | None
    what: str


def _words(pattern: str) -> LatePattern:
    return LatePattern(rf"\b(?:{pattern})\b", re.IGNORECASE)


_UNDER_THREE = ("baby", "toddler")
_ANY_CHILD = ("baby", "toddler", "child")
DANGERS = (
    Danger(
        "infant_sleep",
        ("baby",),
        _words(f"{_HEAD}|{_COVER}|{_TOY}|pillows?|cushions?|cocoons?|sleep ?sacks?"),
        None,
        "",
    ),
    Danger(
        "crib_bumper", ("baby",), _words(r"(?:crib|cot|braided)[\s-]+(?:bumpers?|snakes?)|cot slat covers?"), None, ""
    ),
    Danger("toys_for_sale", _ANY_CHILD, _words(r"toys?|amigurumi|dolls?"), None, ""),
    Danger(
        "sleepwear_fire",
        _ANY_CHILD,
        _words(r"pyjamas?|pajamas?|nightgowns?|nightdress(?:es)?|robes?|sleep ?sacks?"),
        None,
        "",
    ),
    Danger(
        "babywearing_and_carriers", ("baby",), _words(r"slings?|carriers?|hammocks?|swings?|photo cocoons?"), None, ""
    ),
    Danger(
        "small_parts",
        _UNDER_THREE,
        _words(f"{_TOY}|{_GARMENT}|{_COVER}|{_HEAD}|{_HANDS_AND_FEET}"),
        _words(r"buttons?|beads?|safety eyes?|(?:jingle )?bells?|sequins?|snaps?|appliqu[eé]s?|pom-?\s?poms?"),
        "small parts",
    ),
    Danger(
        "bonnet_and_mitten_ties",
        _ANY_CHILD,
        _words(f"{_HEAD}|{_HANDS_AND_FEET}|scar(?:f|ves)"),
        LatePattern(
            rf"\b{_PLACED_TIE % 'chin|neck|bonnet|hat|mitten|bootee|bootie|ankle|ear ?flap|twisted|braided|crocheted'}",
            re.IGNORECASE,
        ),
        "ties",
    ),
    Danger(
        "cords_neck_children",
        _ANY_CHILD,
        _words(_GARMENT),
        LatePattern(
            rf"\b{_PLACED_TIE % 'neck|hood|collar|front|shoulder|halter'}|\bdrawstrings?\b|\bhalters?\b"
            rf"|{_CORD}(?={_WORDS}{{0,80}}\b{_NECK})"
            rf"|{_CORD}(?={_WORDS}{{0,80}}[.;]\s+(?:then\s+)?{_PUT_IN}\s+(?:it|them|this|the\s+\w+)\b{_WORDS}{{0,60}}\b{_NECK})",
            re.IGNORECASE,
        ),
        "cords or ties",
    ),
    Danger(
        "cords_waist_children",
        _ANY_CHILD,
        _words(_GARMENT),
        LatePattern(rf"\b{_PLACED_TIE % 'waist|hem|belt|sleeve|leg'}", re.IGNORECASE),
        "ties",
    ),
    Danger(
        "holes_and_loops",
        ("baby",),
        _words(f"{_COVER}|{_HANDS_AND_FEET}|cardigans?"),
        LatePattern(
            r"\b(?:open ?work|open lace|lace (?:pattern|panel|stitch)|mesh|floats?"
            r"|ch-(?:[5-9]|\d\d)[\s-]+(?:sps?|lps?|loops?))\b",
            re.IGNORECASE,
        ),
        "holes or loops",
    ),
)
TIE_HEADING = _words(f"(?:{_TIE})")
"""A heading that is about ties says so by itself."""
