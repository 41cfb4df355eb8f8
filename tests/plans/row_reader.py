"""A small reader of the rows that plans print, written apart from the printer: text back into stitches and rows.

It refuses what no maker should read: "1 sts", "next 0 sts", "1 times".
"""

import re

Event = tuple[int, int]
"""What one instruction takes from the row below and makes in its own, stitch by stitch."""

_CLAUSES: tuple[tuple[str, int], ...] = (
    (r"(?P<each>\d+ )?(?:hdc|sc) in next (?:st|row-end|base ch)", 1),
    (r"(?P<each>\d+ )?(?:hdc|sc) in each of next (?P<number>\d+) (?:sts|row-ends|base ch)", 0),
    (r"(?:hdc|sc)(?P<together>\d)tog", 0),
    (r"sk next (?:st|row-end)", 1),
    (r"sk next (?P<number>\d+) (?:sts|row-ends)", 0),
    (r"ch (?P<chains>\d+)", 0),
)


def read_row(text: str) -> list[Event]:
    """Every instruction of a row with its repeats worked out."""
    if not text:
        return []
    events: list[Event] = []
    for item in _split(text):
        bracket = re.fullmatch(r"[\[(](.*)[\])] (once|\d+ times)", item)
        if bracket:
            often = 1 if bracket[2] == "once" else int(bracket[2].split()[0])
            assert bracket[2] == "once" or often > 1, item
            events += read_row(bracket[1]) * often
        else:
            events += _clause(item)
    return events


def _split(text: str) -> list[str]:
    depth, items, item = 0, [], ""
    for letter in text:
        depth += letter in "[("
        depth -= letter in "])"
        if letter == "," and not depth:
            items.append(item.strip())
            item = ""
        else:
            item += letter
    return [*items, item.strip()]


def _clause(text: str) -> list[Event]:
    for pattern, single in _CLAUSES:
        match = re.fullmatch(pattern, text)
        if not match:
            continue
        found = match.groupdict()
        if found.get("together"):
            return [(int(found["together"]), 1)]
        if found.get("chains"):
            return [(0, int(found["chains"]))]
        number = single or int(found["number"])
        assert single or number > 1, text
        makes = 0 if text.startswith("sk") else int(found.get("each") or 1)
        return [(1, makes)] * number
    raise AssertionError(f"not read: {text}")


def takes(events: list[Event]) -> int:
    """Stitches used up by a row."""
    return sum(taken for taken, _ in events)


def makes(events: list[Event]) -> int:
    """Stitches of the row itself."""
    return sum(made for _, made in events)


def gaps(events: list[Event], shaping: Event) -> list[int]:
    """Plain stitches before, between and after the shapings."""
    found = [0]
    for event in events:
        if event == shaping:
            found.append(0)
        else:
            assert event == (1, 1)
            found[-1] += 1
    return found


def read_schedule(text: str) -> list[int]:
    """The rows that a schedule names, counted from 1."""
    if re.fullmatch(r"work \d+ (?:rows?|rnds?) even", text):
        return []
    rows: list[int] = []
    for part in text.split(", then "):
        if match := re.fullmatch(r"on next (row|rnd)", part):
            rows.append((rows[-1] if rows else 0) + 1)
        elif match := re.fullmatch(r"on next (\d+) (rows|rnds)", part):
            assert int(match[1]) > 1
            rows += range((rows[-1] if rows else 0) + 1, (rows[-1] if rows else 0) + 1 + int(match[1]))
        elif match := re.fullmatch(r"on \D*(\d+)", part):
            assert not rows
            rows.append(int(match[1]))
        else:
            rows += _more(part, rows[-1])
    return rows


def _more(part: str, last: int) -> list[int]:
    match = re.fullmatch(r"every (\d+)(?:(st|nd|rd|th) row| rnds) (?:once more|(\d+) more times)", part)
    assert match, part
    pace, often = int(match[1]), int(match[3] or 1)
    assert pace > 1
    assert match[3] is None or often > 1
    return [last + pace * k for k in range(1, often + 1)]
