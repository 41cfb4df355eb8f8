"""Two invented patterns as Documents: a mitt in seven sizes by name, a yoke in nine sizes by number."""

import re
from fractions import Fraction

from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Document,
    Emphasis,
    Heading,
    Inline,
    Link,
    Note,
    Number,
    Part,
    Passage,
    Piece,
    Prose,
    Role,
    Section,
    Served,
    SizeLine,
    SizeList,
    SizeTable,
    Step,
    Strong,
    Table,
    Tag,
    Text,
    Times,
    TitleBlock,
    Token,
    Word,
)
from stitchproof.formulas.slot import PrintAs
from stitchproof.measures.dimension import LENGTH, PLAIN, ROWS, STITCHES, WEIGHT, Dimension
from stitchproof.measures.values import Absent, Value
from stitchproof.source import Place, SourceFile

HERE = Place(SourceFile("sample.md", "sample\n").whole)
Given = Value | int | str | float | None


def value(given: Given) -> Value:
    """A number of a sample as its exact value; None is a size that does not work it."""
    if given is None:
        return Absent.NOT_WORKED
    return given if isinstance(given, Absent | bool) else Fraction(given)


def number(
    *given: Given,
    served: Served | None = None,
    dimension: Dimension = PLAIN,
    print_as: PrintAs = PrintAs.USUAL,
    role: Role = Role.PLAIN,
) -> Number:
    """A Number with one value per size; sizes with None are not served unless `served` says so."""
    where = tuple(size for size, each in enumerate(given) if each is not None) if served is None else served
    return Number(tuple(map(value, given)), where, dimension, "", print_as, role, "sample", HERE)


def sts(*given: Given) -> Number:
    return number(*given, dimension=STITCHES)


def count(*given: Given) -> Number:
    return number(*given, dimension=STITCHES, role=Role.STATED_COUNT)


def rnds(*given: Given) -> Number:
    return number(*given, dimension=ROWS)


def times(*given: Given) -> Number:
    return number(*given, role=Role.TIMES)


def length(*given: Given, print_as: PrintAs = PrintAs.USUAL) -> Number:
    return number(*given, dimension=LENGTH, print_as=print_as, role=Role.LENGTH)


def line(text: str, **numbers: Number) -> tuple[Token, ...]:
    """Text with {names} of numbers and `words` of the lexicon as tokens."""
    tokens: list[Token] = []
    for piece in re.split(r"(\{\w+\}|`[\w -]+`)", text):
        if piece.startswith("{"):
            tokens.append(numbers[piece[1:-1]])
        elif piece.startswith("`"):
            tokens.append(Word(piece[1:-1], piece[1:-1], HERE))
        elif piece:
            tokens.append(Text(piece, HERE))
    return tuple(tokens)


def prose(text: str, **numbers: Number) -> Prose:
    return Prose(line(text, **numbers))


def part(text: str, served: Served, tag: Tag = Tag.NONE, **numbers: Number) -> Part:
    return Part(served, tag, line(text, **numbers))


def step(label: str, *parts: Part, identity: str = "", served: Served | None = None) -> Step:
    where = tuple(sorted({size for each in parts for size in each.served})) if served is None else served
    words = "".join(token.text for token in parts[0].tokens if isinstance(token, Text))
    return Step(identity or f"sample/{label}/{where}/{words}", "sample", line(label), parts, where, HERE)


def row(label: str, text: str, served: Served, **numbers: Number) -> Step:
    return step(label, Part(served, Tag.NONE, line(text, **numbers)))


def passage(served: Served, tag: Tag, *blocks: Block) -> Passage:
    return Passage(served, tag, blocks, "sample", HERE)


def heading(level: int, text: str) -> Heading:
    return Heading(level, line(text), HERE)


def size_line(label: str, given: Number) -> SizeLine:
    return SizeLine(line(label), given)


def sizes_of(names: str, groups: tuple[int, ...], by_number: bool = False) -> SizeList:
    all_names = tuple(names.split())
    return SizeList(all_names, by_number, groups, tuple(range(len(all_names))))


def document(
    sizes: SizeList,
    *blocks: Block,
    front: tuple[Section, ...] = (),
    units: tuple[str, ...] = ("cm", "in"),
    served: Served | None = None,
) -> Document:
    """A small Document around some blocks of one piece."""
    piece = Piece("piece", heading(2, "Piece"), sizes.chosen if served is None else served, blocks)
    title = TitleBlock("Sample", "A. Maker", "1", "2026-02-03", "help@example.org", "", "us", ())
    return Document(title, sizes, units, front, (piece,) if blocks else (), (), ())


ALL7: Served = (0, 1, 2, 3, 4, 5, 6)


def mitt() -> Document:
    """A mitt in seven sizes, called by name: rib cuff, round hand, thumb; the decrease rounds differ in number."""
    title = TitleBlock(
        title="Fernhythe Mitts",
        designer="Odile Brandreth",
        revision="2",
        date="2026-03-14",
        contact="help@fernhythe.example",
        licence="For personal use. What you make from it is yours to give or to sell.",
        terms="us",
        summary=line(
            "Close, warm mitts for small and large hands. A sideways rib is joined into a ring; the hand is worked "
            "upward from its row-ends in spiral rounds and closed with {points} even points.",
            points=number(6, 6, 6, 6, 6, 6, 6, print_as=PrintAs.WORDS),
        ),
    )
    sizes = sizes_of("Tot Child Youth S M L XL", (3, 3))
    return Document(title, sizes, ("cm", "in"), _mitt_front(), _mitt_pieces(), _mitt_finishing(), ())


def _mitt_front() -> tuple[Section, ...]:
    hand = size_line("To fit hand", length("12.7", "15.2", "17.1", "18.4", "20.3", "22.2", "24.1"))
    around = size_line("Mitt around", length(12, 15, 18, 18, 21, 21, 24))
    tall = size_line("Length", length(14, 17, "20.5", 23, 25, 26, "27.5"))
    yarn = size_line("Yarn", number(25, 30, 40, 50, 60, 65, 75, dimension=WEIGHT))
    balls = size_line("Balls of 50 g", number(1, 1, 1, 1, 2, 2, 2))
    caution: tuple[Inline, ...] = line("Never leave a mitt on a sleeping child, and add no cord between the two.")
    return (
        Section("sizes", "Sizes and finished measurements", (SizeTable((hand, around, tall, yarn, balls)),)),
        Section(
            "materials",
            "Materials",
            (
                Bullets(
                    (
                        (Strong(line("Yarn")), *line(": light weight wool, 100 g = 230 m.")),
                        (Strong(line("Hook")), *line(": 4 mm, or the size that gives the gauge.")),
                        line("Yarn needle, 2 stitch markers."),
                    ),
                    False,
                ),
            ),
        ),
        Section(
            "gauge",
            "Gauge",
            (
                prose("Hdc in spiral rounds, washed and dried flat: 20 sts and 15 rnds = 10 cm / 4 in."),
                prose("Rib, relaxed: 20 sts and 18 rows = 10 cm / 4 in."),
            ),
        ),
        Section(
            "notes",
            "Notes",
            (
                Prose(
                    (
                        *line("The hand is worked in spiral rounds, never joined. "),
                        Emphasis(line("Move the marker up")),
                        *line(" at the start of each rnd. How to pick up along row-ends is shown at "),
                        Link(line("the rib lesson"), "https://fernhythe.example/rib"),
                        *line("."),
                    )
                ),
                prose("Ch 1 at the start of a row does not count as a st."),
            ),
        ),
        Section("cautions", "For small hands", (Caution((0, 1), Tag.ONLY, (Prose(caution),)),)),
        Section("abbreviations", "Abbreviations", (_abbreviations(),)),
    )


def _abbreviations() -> Table:
    meanings = {
        "ch": "chain",
        "dec": "decrease",
        "hdc": "half double crochet",
        "hdc2tog": "half double crochet 2 stitches together",
        "rnd(s)": "round(s)",
        "sc": "single crochet",
        "sc-blo": "single crochet in the back loop only",
        "sl st": "slip stitch",
        "st(s)": "stitch(es)",
    }
    return Table((), tuple(((Strong(line(short)),), line(words)) for short, words in meanings.items()))


def _mitt_pieces() -> tuple[Piece, ...]:
    ribs = (12, 14, 16, 18, 20, 21, 24)
    around = (24, 30, 36, 36, 42, 42, 48)
    picked = (24, 28, 32, 36, 40, 42, 48)
    cuff = Piece(
        "cuff",
        heading(2, "Cuff"),
        ALL7,
        (
            row(
                "",
                "Ch {chain}, leaving a tail of {tail}.",
                ALL7,
                chain=sts(8, 10, 12, 13, 14, 14, 15),
                tail=length(*[20] * 7),
            ),
            row(
                "Row 1:",
                "`Sc` in 2nd `ch` from hook and in each `ch` across, turn. — {n} `sc`",
                ALL7,
                n=count(7, 9, 11, 12, 13, 13, 14),
            ),
            row(
                "Row 2:", "Ch 1, `sc-blo` in each st across, turn. — {n} `sc`", ALL7, n=count(7, 9, 11, 12, 13, 13, 14)
            ),
            row(
                "",
                "Rep Row 2 until there are {rows} rows in all. — {ribs} ribs",
                ALL7,
                rows=rnds(*(2 * rib for rib in ribs)),
                ribs=number(*ribs, role=Role.STATED_COUNT),
            ),
            row(
                "Joining row:",
                "`Sl st` through both edges in each st across. — {n} `sl sts`",
                ALL7,
                n=count(7, 9, 11, 12, 13, 13, 14),
            ),
        ),
    )
    hand = Piece("hand", heading(2, "Hand"), ALL7, (*_hand_start(picked, around), *_hand_rounds(around)))
    thumb = Piece(
        "thumb",
        heading(2, "Thumb"),
        ALL7,
        (
            row(
                "Rnd 1:",
                "`Sc` in each of next {n} held sts, `sc` in each of next {g} ch. — {m} `sc`",
                ALL7,
                n=sts(5, 6, 7, 7, 8, 8, 9),
                g=sts(3, 3, 4, 4, 5, 5, 6),
                m=count(8, 9, 11, 11, 13, 13, 15),
            ),
            row(
                "",
                "Work {n} rnds even. Fasten off. Thumb measures {long}.",
                ALL7,
                n=rnds(3, 4, 5, 6, 7, 7, 8),
                long=length("2.4", 3, "3.7", "4.3", "4.9", "4.9", "5.5"),
            ),
        ),
    )
    return (cuff, hand, thumb)


def _hand_start(picked: tuple[int, ...], around: tuple[int, ...]) -> tuple[Block, ...]:
    more = tuple(wide - up for wide, up in zip(around, picked, strict=True))
    growing = tuple(size for size in ALL7 if more[size])
    even = tuple(size for size in ALL7 if not more[size])
    inc_words = "[`Hdc` in each of next {gap} sts, 2 `hdc` in next st] {inc} times. — {n} `hdc`"
    return (
        Note((prose("The marker shows the first st of the rnd. It stays in the work to the end."),)),
        row("Rnd 1:", "Working along row-ends, 2 `sc` in each rib around. — {n} `sc`", ALL7, n=count(*picked)),
        step(
            "Rnd 2:",
            part(
                inc_words,
                growing,
                Tag.ONLY,
                gap=sts(*(up // m - 1 if m else None for up, m in zip(picked, more, strict=True))),
                inc=times(*(m or None for m in more)),
                n=count(*(n if m else None for n, m in zip(around, more, strict=True))),
            ),
            part(
                "`Hdc` in each st around. — {n} `hdc`",
                even,
                Tag.OTHER,
                n=count(*(None if m else n for n, m in zip(around, more, strict=True))),
            ),
            identity="hand/Rnd 2",
        ),
        row("Rnd 3:", "`Hdc` in each st around. — {n} `hdc`", ALL7, n=count(*around)),
        row(
            "",
            "Rep Rnd 3 until {n} rnds are complete; hand measures {long} from cuff.",
            ALL7,
            n=rnds(6, 8, 10, 11, 12, 13, 14),
            long=length(4, "5.3", "6.7", "7.3", 8, "8.7", "9.3"),
        ),
    )


def _hand_rounds(around: tuple[int, ...]) -> tuple[Block, ...]:
    blocks: list[Block] = [heading(3, "Closing the top")]
    for k in range(1, 8):
        plain = tuple(wide // 6 - 1 - k for wide in around)
        left = tuple(wide - 6 * k for wide in around)
        serving = tuple(size for size in ALL7 if plain[size] >= 1)
        closing = tuple(size for size in ALL7 if plain[size] == 0)
        rounds: list[Block] = []
        if serving:
            rounds.append(
                row(
                    f"Dec Rnd {k}:",
                    "[`Hdc` in each of next {plain} sts, `hdc2tog`] 6 times. — {left} `hdc`",
                    serving,
                    plain=sts(*(p if p >= 1 else None for p in plain)),
                    left=count(*(n if p >= 1 else None for n, p in zip(left, plain, strict=True))),
                )
            )
        if closing:
            rounds.append(
                row(
                    f"Dec Rnd {k}:",
                    "[`Hdc2tog`] 6 times. — {left} `hdc`",
                    closing,
                    left=count(*(n if p == 0 else None for n, p in zip(left, plain, strict=True))),
                )
            )
        blocks.extend(
            passage(each.served, Tag.ONLY if each.served != ALL7 else Tag.NONE, each)
            for each in rounds
            if isinstance(each, Step)
        )
    close = row("", "Fasten off, leaving a 20 cm tail. Thread it through the 6 rem sts and draw up.", ALL7)
    return (*blocks, passage(ALL7, Tag.ALL, close))


def _mitt_finishing() -> tuple[Section, ...]:
    second = Times(2, (prose("Work a second mitt alike; the thumb fits either hand."),), HERE)
    return (Section("finishing", "Finishing", (prose("Weave in and trim every end. Wash and dry flat."), second)),)


ALL9: Served = tuple(range(9))


def yoke() -> Document:
    """A yoke in nine sizes, called by number: long vectors, increases at two widths, a passage of several rounds."""
    title = TitleBlock(
        "Larkholt Yoke",
        "Odile Brandreth",
        "1",
        "2026-05-02",
        "help@larkholt.example",
        "",
        "us",
        line("A round yoke, begun at the neck."),
    )
    sizes = sizes_of("XS S M L XL 2X 3X 4X 5X", (4, 4), by_number=True)
    neck = (88, 90, 92, 94, 96, 100, 104, 106, 110)
    inc = (24, 26, 28, 28, 30, 30, 32, 32, 34)
    blocks: list[Block] = [
        row("Rnd 1:", "Ch {n}, join with `sl st` to form a ring. — {n} `ch`", ALL9, n=count(*neck)),
    ]
    for k in range(1, 9):
        serving = tuple(size for size in ALL9 if k <= 6 + size // 4)
        made = tuple(n + i * k if s in serving else None for s, (n, i) in enumerate(zip(neck, inc, strict=True)))
        on_rnd = tuple(4 * k + s % 2 if s in serving else None for s in ALL9)
        gap = tuple(
            (n + i * (k - 1)) // i - 1 if s in serving else None for s, (n, i) in enumerate(zip(neck, inc, strict=True))
        )
        words = (
            "On yoke rnd {rnd}: ch 1, [`hdc` in each of next {gap} sts, 2 `hdc` in next st] {inc} times, `hdc` in each "
            "st to end, join with `sl st` in first `hdc`. — {n} `hdc`"
        )
        inc_step = row(
            f"Inc Rnd {k}:",
            words,
            serving,
            rnd=rnds(*on_rnd),
            gap=sts(*gap),
            inc=times(*(i if s in serving else None for s, i in enumerate(inc))),
            n=count(*made),
        )
        even = step("", part("Work 3 rnds even.", serving), identity=f"yoke/Work rnds even/{len(blocks)}")
        blocks.append(passage(serving, Tag.NONE if serving == ALL9 else Tag.ONLY, inc_step, even))
    blocks.append(
        passage(
            ALL9,
            Tag.ALL,
            row(
                "",
                "Yoke measures {long} from the neck.",
                ALL9,
                long=length("20.8", "21.7", "22.5", "24.2", 25, "26.7", "28.3", 30, "31.7"),
            ),
        )
    )
    bust = size_line(
        "Finished bust", length("82.4", "90.6", "98.8", "108.2", "117.6", "128.2", "138.8", "150.6", "162.4")
    )
    upper = size_line("Upper arm", length("30.6", "32.9", "35.3", "38.8", "41.2", "44.7", "48.2", "51.8", "55.3"))
    front = (Section("sizes", "Sizes and finished measurements", (SizeTable((bust, upper)),)),)
    piece = Piece("yoke", heading(2, "Yoke"), ALL9, tuple(blocks))
    return Document(title, sizes, ("cm", "in"), front, (piece,), (), ())
