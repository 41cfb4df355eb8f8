"""Reads a formula.

Written by hand: numbers take units (`5 sts per 2 ribs`), names are dotted, and every fault must name in trade words the
characters that stopped it. A general parser library costs more start-up than `check` may spend and would still need all that.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NoReturn

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.formulas.faults.formula_not_readable import formula_not_readable
from stitchproof.formulas.kind import Kind
from stitchproof.formulas.strange_signs import sign_without_meaning
from stitchproof.formulas.tree import (
    Amount,
    AtSize,
    Call,
    Choice,
    Comparison,
    Formula,
    Logic,
    Name,
    Negative,
    Node,
    Not,
    NotWorked,
    Product,
    Sum,
)
from stitchproof.late_pattern import LatePattern
from stitchproof.measures.units import UNITS, Unit
from stitchproof.source import Span

LONGEST = 2000
DEEPEST = 40
MOST_SIGNS = 100
"""Operators in one formula. Each may nest the formula one deeper, and no stage can follow it without end."""
MOST_DIGITS = 15
KEYWORDS = {"and", "or", "not", "if", "else", "per"}


def _token(letter: str) -> LatePattern:
    word = rf"{letter}(?:{letter}|\d)*"
    return LatePattern(
        r"(?P<number>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
        rf"|(?P<name>{word}(?:\.{word})*)"
        r"|(?P<size>\[[^\[\]\n]*\])"
        r"|(?P<sign><=|>=|==|!=|[-+*/()<>=,%≤≥≠×÷−])"
    )


_ASCII_TOKEN = _token("[A-Za-z_]")
# ½ and ² count as letters in a regular expression, and are none in a name.
_TOKEN = _token(r"(?![²³¹¼-¾]|[\u2070-\u209f\u2150-\u218f])[^\W\d]")
"""The first of the two says the same of a text in ASCII, as most formulas are, and is made in a quarter of the time."""
_SAME = {"==": "=", "≤": "<=", "≥": ">=", "≠": "!=", "×": "*", "÷": "/", "−": "-"}


class Stopped(Exception):
    """Reading cannot go on; carries the report. Never leaves this module."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.headline)
        self.diagnostic = diagnostic


class Token(Struct, frozen=True):
    """kind: number, name, size (in square brackets), sign or end."""

    kind: str
    text: str
    span: Span


def read_formula(span: Span) -> Formula | Diagnostic:
    """The formula written at a span, or the report of what stopped the reader."""
    try:
        tokens = _tokens(span)
        reader = _Reader(tokens)
        node = reader.choice()
        reader.expect_end()
        _bounded(tokens, span)
    except Stopped as stopped:
        return stopped.diagnostic
    return Formula(span.text.strip(), node, node.span)


def _tokens(span: Span) -> list[Token]:
    text = span.text
    if len(text) > LONGEST:
        raise Stopped(
            formula_not_readable(
                span, f"a formula has at most {LONGEST} characters", "give parts of it names of their own"
            )
        )
    tokens: list[Token] = []
    token, position = _ASCII_TOKEN if text.isascii() else _TOKEN, 0
    while position < len(text):
        if text[position].isspace():
            position += 1
            continue
        match = token.match(text, position)
        if not match or match.lastgroup is None:
            here = span.part(position, position + 1)
            raise Stopped(sign_without_meaning(here))
        tokens.append(Token(match.lastgroup, _SAME.get(match[0], match[0]), span.part(match.start(), match.end())))
        position = match.end()
    tokens.append(Token("end", "", span.part(len(text.rstrip()), len(text.rstrip()))))
    return tokens


def _bounded(tokens: list[Token], span: Span) -> None:
    signs = [token for token in tokens if token.kind == "sign" and token.text not in "(),%"]
    words = [token for token in tokens if token.kind == "name" and token.text in KEYWORDS]
    if len(signs) + len(words) > MOST_SIGNS:
        what = f"a formula has at most {MOST_SIGNS} operators"
        raise Stopped(formula_not_readable(span, what, "give parts of it names of their own"))


class _Reader:
    """Recursive descent over the tokens of one formula, loosest binding first."""

    def __init__(self, tokens: list[Token]) -> None:
        self.tokens = tokens
        self.at = 0
        self.depth = 0

    @property
    def next(self) -> Token:
        return self.tokens[self.at]

    def take(self, *texts: str) -> Token | None:
        token = self.tokens[self.at]
        if token.text in texts and token.kind in ("sign", "name"):
            self.at += 1
            return token
        return None

    def expect(self, text: str, why: str) -> Token:
        return self.take(text) or self.stop(f"`{text}` is missing {why}", f"add `{text}`")

    def stop(self, what: str, help_text: str) -> NoReturn:
        raise Stopped(formula_not_readable(self.next.span, what, help_text))

    def expect_end(self) -> None:
        if self.next.kind == "end":
            return
        if self.next.kind == "size":
            raise Stopped(sign_without_meaning(self.next.span.part(0, 1)))
        before = self.tokens[self.at - 1].text if self.at else ""
        if self.next.text == ")":
            self.stop("`)` closes no bracket", "take it out, or open the bracket before")
        words = (
            f"`{self.next.text}` does not follow on `{before}`"
            if before
            else f"`{self.next.text}` cannot begin a formula"
        )
        self.stop(words, self._help_between(before))

    def _help_between(self, before: str) -> str:
        """What is missing between two values that follow each other."""
        after = self.tokens[self.at + 1] if self.next.kind != "end" else self.next
        if self.next.text == "," and before.isdigit() and after.kind == "number":
            return f"a number is written with a decimal point: write `{before}.{after.text}`"
        if self.next.text == "(" or self.next.text in ("x", "X"):
            return "write `*` to multiply"
        if self.next.kind == "number" and before in ("nearest", "up", "down", "min", "max", "abs"):
            return f"put what it takes in round brackets: `{before}(…)`"
        return "put an operator (+ - * /) between two values, or correct the unit"

    def choice(self) -> Node:
        self.depth += 1
        if self.depth > DEEPEST:
            self.stop("the brackets are nested too deeply", "give the inner parts names of their own")
        value = self.either()
        if self.take("if"):
            test = self.either()
            self.expect("else", "after the test")
            otherwise = self.choice()
            value = Choice(value, test, otherwise, value.span.to(otherwise.span))
        self.depth -= 1
        return value

    def either(self) -> Node:
        left = self.both()
        while self.take("or"):
            right = self.both()
            left = Logic("or", left, right, left.span.to(right.span))
        return left

    def both(self) -> Node:
        left = self.inverse()
        while self.take("and"):
            right = self.inverse()
            left = Logic("and", left, right, left.span.to(right.span))
        return left

    def inverse(self) -> Node:
        word = self.take("not")
        if not word:
            return self.comparison()
        worked = self.take("worked")
        if worked:
            return NotWorked(word.span.to(worked.span))
        operand = self.comparison()
        return Not(operand, word.span.to(operand.span))

    def comparison(self) -> Node:
        left = self.sum()
        sign = self.take("<", "<=", ">", ">=", "=", "!=")
        if not sign:
            return left
        right = self.sum()
        if self.next.text in ("<", "<=", ">", ">=", "=", "!="):
            self.stop("a test compares two values only", "join two tests with `and`")
        return Comparison(sign.text, left, right, left.span.to(right.span))

    def sum(self) -> Node:
        left = self.product()
        while sign := self.take("+", "-"):
            right = self.product()
            left = Sum(sign.text, left, right, left.span.to(right.span))
        return left

    def product(self) -> Node:
        left = self.signed()
        while sign := self.take("*", "/"):
            right = self.signed()
            left = Product(sign.text, left, right, left.span.to(right.span))
        return left

    def signed(self) -> Node:
        signs = []
        while sign := self.take("-"):
            signs.append(sign)
        node = self.single()
        for sign in reversed(signs):
            node = Negative(node, sign.span.to(node.span))
        return node

    def single(self) -> Node:
        token = self.next
        if token.kind == "number":
            return self.amount()
        if token.kind == "name" and token.text not in KEYWORDS:
            self.at += 1
            return self.at_size(self.call(token) if self.take("(") else Name(token.text, token.span))
        if self.take("("):
            node = self.choice()
            closing = self.expect(")", "to close the bracket")
            return replace(node, span=token.span.to(closing.span))
        return self.stop_at_value(token)

    def at_size(self, value: Node) -> Node:
        """A named value, or the same in one size: `hat_sts[Adult]`."""
        if self.next.kind != "size":
            return value
        named = self.next.span
        self.at += 1
        inner = named.part(1, len(named.text) - 1)
        lead, tail = len(inner.text) - len(inner.text.lstrip()), len(inner.text.rstrip())
        return AtSize(value, inner.part(min(lead, tail), tail), value.span.to(named))

    def stop_at_value(self, token: Token) -> NoReturn:
        if token.kind == "size":
            raise Stopped(sign_without_meaning(token.span.part(0, 1)))
        what = (
            "the formula ends where a value should follow"
            if token.kind == "end"
            else f"`{token.text}` stands where a value should"
        )
        self.stop(what, "write a number with its unit, or a name from pattern.yaml")

    def call(self, name: Token) -> Node:
        arguments = [] if self.next.text == ")" else [self.choice()]
        while self.take(","):
            arguments.append(self.choice())
        closing = self.expect(")", f"to close `{name.text}(`")
        return Call(name.text, tuple(arguments), name.span.to(closing.span))

    def amount(self) -> Node:
        value, span = self.number()
        if self.take("%"):
            return Amount(value / 100, Kind(), span.to(self.tokens[self.at - 1].span))
        unit = self.unit()
        if not unit:
            return Amount(value, Kind(zero=value == 0), span)
        span = span.to(self.tokens[self.at - 1].span)
        if not self.take("per"):
            return Amount(value * unit.size, Kind(unit.dimension, unit.noun), span)
        below, _ = self.number() if self.next.kind == "number" else (Fraction(1), span)
        per = self.unit()
        if not per or not below:
            self.stop(
                "`per` needs a length or a noun after it", "write for example `16 sts per 10 cm` or `5 sts per 2 ribs`"
            )
        span = span.to(self.tokens[self.at - 1].span)
        kind = Kind(unit.dimension.per(per.dimension), unit.noun)
        return Amount(value * unit.size / (below * per.size), kind, span)

    def number(self) -> tuple[Fraction, Span]:
        token = self.next
        if len(token.text) > MOST_DIGITS:
            self.stop(f"a number has at most {MOST_DIGITS} digits", "write it shorter")
        self.at += 1
        return Fraction(token.text), token.span

    def unit(self) -> Unit | None:
        token = self.next
        if token.kind != "name" or token.text in KEYWORDS or token.text not in UNITS:
            return None
        self.at += 1
        return UNITS[token.text]
