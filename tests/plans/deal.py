"""Sharing out by dealing one at a time, as cards are dealt: the other way to come to two groups."""


def dealt(total: int, groups: int) -> list[int]:
    """What each group gets, the earlier ones first served."""
    hands = [0] * groups
    for number in range(total if groups else 0):
        hands[number % groups] += 1
    return hands


def balanced(sizes: list[int]) -> bool:
    """Whether any two stretches of as many groups, also around the ring, differ by no more than one stitch."""
    ring = sizes + sizes
    for length in range(1, len(sizes)):
        sums = {sum(ring[start : start + length]) for start in range(len(sizes))}
        if max(sums) - min(sums) > 1:
            return False
    return True
