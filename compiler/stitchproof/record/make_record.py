"""Makes the Record of a pattern that went through all stages."""

from __future__ import annotations

from msgspec.structs import replace

from stitchproof.diagnostics.diagnostic import Diagnostic
from stitchproof.expansion.document import Document
from stitchproof.expansion.k_values import KsInUse
from stitchproof.reading.pattern_source import Definition
from stitchproof.record.blocks import BlockInSizes, blocks_in_sizes
from stitchproof.record.quantities import (
    plan_in_size,
    recorded_plan,
    recorded_quantity,
    recorded_rate,
    recorded_silent,
    silent_value,
    size_value,
)
from stitchproof.record.record import (
    FORMAT,
    VERSION,
    Record,
    RecordedBlock,
    RecordedFinding,
    RecordedPiece,
    SizeRecord,
)
from stitchproof.simulation.proof_summary import ProofSummary, proof_summary
from stitchproof.simulation.worked_pattern import WorkedPattern, WorkedStep
from stitchproof.sizing.sized_pattern import SizedPattern

TITLE_KEYS = ("title", "designer", "revision", "date", "contact", "licence", "terms")


def make_record(
    name: str,
    compiler: str,
    sized: SizedPattern,
    document: Document,
    worked: WorkedPattern | None,
    in_use: KsInUse,
    findings: tuple[Diagnostic, ...],
) -> Record:
    """The record. compiler: its version. sized, document: with what only the worked rows can tell. worked: None where the rows
    were not come to. in_use: the k at which values that take one are worked with."""
    blocks = blocks_in_sizes(document, sized.scope)
    steps = {each.step.identity: each for piece in worked.pieces for each in piece.steps} if worked else {}
    proof = proof_summary(name, worked, sized.uses) if worked else None
    definitions = {sized.scope.full_name(each.name): each for each in sized.source.header.definitions}
    silent = _silent(sized)
    header = sized.source.header
    return Record(
        FORMAT,
        VERSION,
        compiler,
        name,
        {key: getattr(document.title_block, key) for key in TITLE_KEYS if getattr(document.title_block, key)},
        _standards(sized),
        document.sizes.names,
        document.units,
        (
            *(recorded_quantity(each, sized, definitions.get(each.name)) for each in sized.quantities),
            *(recorded_silent(each, sized) for each in silent),
        ),
        tuple(recorded_rate(entry) for entry in header.rates),
        tuple(recorded_plan(entry, sized) for entry in header.plans),
        tuple(_with_proof(each.block, steps.get(each.block.identity)) for each in blocks),
        tuple(_pieces(document, proof)),
        tuple(_finding(found, sized.source.name) for found in findings),
        {
            size: _size_record(index, sized, blocks, worked, proof, in_use)
            for index, size in enumerate(document.sizes.names)
        },
    )


def _silent(sized: SizedPattern) -> tuple[Definition, ...]:
    """What is written and could not be made out."""
    return tuple(
        each
        for each in sized.source.header.definitions
        if sized.scope.full_name(each.name) not in sized.scope.quantities
    )


def _standards(sized: SizedPattern) -> dict[str, str]:
    body = sized.body
    return {body.name: body.source or body.title} if body else {}


def _with_proof(block: RecordedBlock, step: WorkedStep | None) -> RecordedBlock:
    return replace(block, proof=step.proof.value, counts=step.counts) if step and block.kind == "row" else block


def _pieces(document: Document, proof: ProofSummary | None) -> list[RecordedPiece]:
    proofs = {each.name: each for each in proof.pieces} if proof else {}
    found = []
    for piece in document.pieces:
        title = "".join(getattr(each, "text", "") for each in piece.heading.inlines).strip()
        each = proofs.get(piece.name)
        held = (each.proved, each.from_stated, each.at_fault, each.trusted, each.not_read, each.counts) if each else ()
        found.append(RecordedPiece(piece.name, title, *held))
    return found


def _finding(found: Diagnostic, pattern: str) -> RecordedFinding:
    span = found.primary.span
    _, inside, rest = span.file.path.rpartition(f"{pattern}/")
    path = rest if inside else span.file.path
    sums = tuple(f"{line.size}  {line.expression}   {line.note}".strip() for line in found.sums)
    nearest = tuple(f"{each.size}  {each.value}".strip() for each in found.alternatives)
    return RecordedFinding(
        found.page.code,
        found.page.name,
        found.severity.value,
        found.headline,
        found.sizes,
        found.piece,
        found.row,
        f"{path}:{span.file.line_column(span.start)[0]}",
        sums,
        nearest,
        found.accepted,
    )


def _size_record(
    size: int,
    sized: SizedPattern,
    blocks: tuple[BlockInSizes, ...],
    worked: WorkedPattern | None,
    proof: ProofSummary | None,
    in_use: KsInUse,
) -> SizeRecord:
    given: dict[str, str] = {}
    definitions = {sized.scope.full_name(each.name): each for each in sized.source.header.definitions}
    for plan in sized.source.header.plans:
        given |= plan_in_size(plan, size)
    stitches = {
        f"{each.stitch} at {each.gauge}" if each.gauge else each.stitch: number
        for each in (proof.census if proof else ())
        if (number := each.numbers[size]) is not None
    }
    ends = {piece.name: piece.ends[size] for piece in worked.pieces if piece.ends} if worked else {}
    return SizeRecord(
        {
            **{
                each.name: size_value(each, definitions.get(each.name), size, sized, in_use)
                for each in sized.quantities
            },
            **{each.name: silent_value(each, size) for each in _silent(sized)},
        },
        {each.block.identity: each.numbers[size] for each in blocks if size in each.numbers},
        given,
        stitches,
        {name: numbers for name, numbers in ends.items() if numbers},
    )
