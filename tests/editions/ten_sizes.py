"""An invented coat in ten sizes whose numbers are as long as numbers get: four figures, halves and quarters."""

from stitchproof.expansion.document import (
    Block,
    Bullets,
    Caution,
    Document,
    Heading,
    Note,
    Part,
    Prose,
    Section,
    Served,
    SizeTable,
    Step,
    Strong,
    Table,
    Tag,
)
from tests.editions.samples import (
    HERE,
    count,
    document,
    heading,
    length,
    line,
    part,
    passage,
    prose,
    rnds,
    row,
    size_line,
    sizes_of,
    step,
    sts,
    times,
)

TEN: Served = tuple(range(10))
SOME: Served = (0, 2, 3, 5, 7, 8)
SIZES = sizes_of("Preemie Newborn Baby Toddler Child Teen Adult-S Adult-M Adult-L Adult-XL", (4, 5), by_number=True)

STS = sts(*range(1010, 1190, 18))
COUNT = count(*range(1010, 1190, 18))
SIDE = length(*[f"{100 + 7 * k}.5" for k in TEN])
SOME_STS = count(*[1010 + k if k in SOME else None for k in TEN])


def measures(served: Served) -> Step:
    """A row that closes on a length in two units and a count."""
    return row("", "Work even until the piece measures about {side}. — {n} `hdc`", served, side=SIDE, n=COUNT)


def check(served: Served) -> Step:
    """A row whose label has a number for every size, and which is nothing but a count."""
    label = line("Check after V Row {rows} (last armhole dec):", rows=rnds(*range(15, 35, 2)))
    return Step("coat/check", "coat", label, (Part(served, Tag.NONE, line("— {n} `hdc`", n=COUNT)),), served, HERE)


def coat() -> Document:
    """Long numbers wherever a number can stand."""
    return document(SIZES, *_rows(), front=(_sizes(), _words()))


def _rows() -> tuple[Block, ...]:
    blo = "[`hdc-blo` in each of next {n} sts] {t} times. — {c} `hdc-blo`"
    two = step(
        "Rnd 2:",
        part("Work {n} sts to marker, turn; {c} `sc` before it.", TEN, n=STS, c=COUNT),
        part("`Sc` in each st to end. — {c} `sc`, {n} `ch-2 sps`", SOME, Tag.ONLY, c=SOME_STS, n=SOME_STS),
        part("— {c} `sc`", TEN, Tag.ALL, c=COUNT),
    )
    return (
        measures(TEN),
        check(TEN),
        row("Rnd 1:", blo, TEN, n=STS, t=times(*range(104, 124, 2)), c=COUNT),
        two,
        Heading(3, line("From the {n} sts to the {m} sts of the hem", n=STS, m=STS), HERE),
        passage(SOME, Tag.ONLY, prose("Lay {n} sts on a thread.", n=SOME_STS), measures(SOME), check(SOME)),
        Note((prose("The coat is {side} around.", side=SIDE),)),
        Caution(SOME, Tag.ONLY, (prose("At {side} it is heavy.", side=SIDE),)),
        Prose((Strong(line("All of {n} sts", n=STS)), *line(" of {side}.", side=SIDE))),
        row("", "https://coat.example/" + "a-long-way-" * 20, TEN),
        heading(3, "hdc-" * 40 + "blo"),
    )


def _sizes() -> Section:
    lines = [
        size_line(f"Around the coat at its widest place, number {k}, lying flat", length(*[f"{99 + k}.5"] * 10))
        for k in range(14)
    ]
    return Section("sizes", "Sizes", (SizeTable(tuple(lines)),))


def _words() -> Section:
    three = Table(
        (line("Edge"), line("Sts"), line("Length")),
        tuple((line(f"Edge {k}"), line("{n} sts", n=STS), line("about {side}", side=SIDE)) for k in range(3)),
    )
    return Section("edges", "Edges", (three, Bullets((line("{n} sts, {side}", n=STS, side=SIDE),), False)))
