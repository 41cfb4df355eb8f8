"""A table as designers write it: one line per number, one column per size."""


def by_size(table: str) -> list[dict[str, int]]:
    """The numbers of each size by name."""
    lines = [line.split() for line in table.strip().splitlines()]
    return [
        dict(zip([line[0] for line in lines], sizes, strict=True))
        for sizes in zip(*([int(cell) for cell in line[1:]] for line in lines), strict=True)
    ]
