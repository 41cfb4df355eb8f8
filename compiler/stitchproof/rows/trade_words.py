"""The words that rows are written with, besides stitches: how each is spelled, and the one word it stands for here."""

from __future__ import annotations

from functools import cache

# Single words, then, each behind a bar, phrases.
_SPELLINGS = {
    "st": "st sts stitch stitches",
    "ch": "ch chs chain chains|chain st|chain sts|chain stitch|chain stitches|ch st|ch sts",
    "chsp": "chsp chsps|ch sp|ch sps|ch space|ch spaces|chain space|chain spaces|chain sp|chain sps|ch lp"
    "|ch lps|ch loop|ch loops",
    "sp": "sp sps space spaces hole holes gap gaps",
    "lp": "lp lps loop loops",
    "rnd": "rnd rnds round rounds",
    "row": "row rows",
    "rib": "rib ribs",
    "mesh": "mesh meshes block blocks",
    "group": "group groups grp grps",
    "row-end": "|row end|row ends|ends of rows|end of rows|row edges",
    "ring": "mr ml ring|magic ring|magic circle|magic loop|adjustable ring|adjustable loop|adjustable circle|sliding loop"
    "|sliding ring",
    "tch": "tch|t ch|turning ch|turning chain|turning chains|turn ch|turning chs",
    "begch": "|beg ch|beginning ch|beginning chain|starting ch|starting chain|initial ch|starting chs|begining ch",
    "basech": "|base ch|base chain|foundation ch|foundation chain|starting foundation ch|original ch|original chain|base chains",
    "marker": "marker markers m mkr|stitch marker|st marker",
    "in": "in into onto",
    "sk": "sk skip miss omit skipping missing",
    "rep": "rep repeat repeating reps rpt rpts",
    "next": "next nxt foll following",
    "each": "each ea",
    "beg": "beg beginning begin start",
    "rem": "rem remaining",
    "cont": "cont continue continuing",
    "pat": "pat patt pattern|st patt|stitch pattern|st pattern",
    "inc": "inc incs increase increases increasing",
    "dec": "dec decs decrease decreases decreasing invdec|inv dec|invisible dec|invisible decrease",
    "ddec": "ddec|double dec|double decrease",
    "join": "join joining joined",
    "leave": "leave leaving",
    "times": "times time",
    "pm": "pm|place marker|place a marker|place markers|place m|placing marker|placing a marker|placing markers"
    "|mark this st|mark|marking|replace marker|replace m",
    "sm": "sm|slip marker|slip markers|slipping marker|slipping markers|sl m|move marker|move markers|moving marker"
    "|moving markers|move marker up|move markers up|moving marker up|moving markers up|sl marker|sl markers",
    "fasten": "fo|fasten off|finish off|tie off|cut yarn|break yarn|break off|end off|bind off|cut off|break off yarn",
    "blo": "blo bl tbl|back loop only|back loops only|back lp only|back lps only|back lp|back lps|back loop|back loops"
    "|through back loop|through back loops|back loop of|back lp of",
    "flo": "flo fl|front loop only|front loops only|front lp only|front lps only|front lp|front lps|front loop|front loops",
    "both": "|both loops|both lps|both loop",
    "third": "|third loop|3rd loop|third lp|3rd lp|back bar|back ridge|camel loop|back bump",
    "rs": "rs|right side",
    "ws": "ws|wrong side",
    "hook": "hook hk",
    "until": "until till til",
    "with": "with w/",
    "through": "through thru",
    "center": "center centre middle",
    "color": "color colour",
    "prev": "prev previous preceding",
    "alternate": "alternate alternating alternately alt",
    "tog": "tog together",
    "work": "work make making",
    "place": "place",
}


@cache
def trade_words() -> dict[tuple[str, ...], str]:
    """The word that each spelling stands for."""
    found: dict[tuple[str, ...], str] = {}
    for word, spellings in _SPELLINGS.items():
        singles, *phrases = spellings.split("|")
        for single in singles.split():
            found[(single,)] = word
        for phrase in phrases:
            found[tuple(phrase.split())] = word
    return found
