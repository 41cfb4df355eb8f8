"""The rooms of the compiler: what each may import of ours, and where each library from outside may be imported.

A room may import itself, and what its line names: a whole room, or one module of it. The types that a stage hands on
lie in modules of their own, and only these may be imported by what comes later; `stages` alone calls them.
"""

GROUND_FLOOR = (
    "source",
    "once",
    "shipped_data",
    "plain_file",
    "processes",
    "expressions",
    "late_pattern",
    "measures",
    "diagnostics",
    "kept",
    "formulas",
    "stitches",
    "standards",
    "plans",
    "outlines",
)

READING = ("reading.pattern_source", "reading.claim_entries", "reading.schematic_entries", "reading.figure_entries")
SIZING = (
    *READING,
    "sizing.sized_pattern",
    "sizing.sized_body",
    "sizing.sized_claims",
    "sizing.sized_plans",
    "sizing.sized_yarns",
    "sizing.sized_schematics",
)
EXPANSION = (*SIZING, "expansion.expanded_pattern", "expansion.document")
ROWS = (*EXPANSION, "rows.written_pattern")
SIMULATION = (*ROWS, "simulation.worked_pattern", "simulation.complete_pattern", "simulation.slips", "rows.row_tree")
STAGE_TYPES = SIMULATION

# The templates that reading hands on carry marks; what the marks look like is part of what it hands on.
MARKS = ("reading.marks",)

SEQUENCES = (
    *GROUND_FLOOR,
    "reading.written_sequence",
    "reading.sequence_file.STYLES",
    "reading.yaml_tree.Scalar",
    "rows",
    "simulation",
    "checks.row_findings",
)
"""Others' rows: read and worked by the same readers and the same kernel."""

STAGES = ("reading", "sizing", "expansion", "rows", "simulation")

MAY_IMPORT: dict[str, tuple[str, ...]] = {
    "source": (),
    "once": (),
    "shipped_data": (),
    "plain_file": (),
    "processes": (),
    "expressions": (),
    "late_pattern": ("expressions", "once"),
    "libraries": ("late_pattern",),
    "own_modules": (),
    "measures": ("source",),
    "diagnostics": ("source", "measures", "expressions"),
    "kept": ("diagnostics",),
    "formulas": ("source", "once", "measures", "diagnostics", "expressions", "late_pattern"),
    "stitches": ("source", "measures", "diagnostics", "expressions", "shipped_data"),
    "standards": ("source", "measures", "diagnostics", "expressions", "shipped_data"),
    "plans": ("source", "measures"),
    "outlines": (),
    "reading": GROUND_FLOOR,
    "sizing": (*GROUND_FLOOR, *READING),
    "expansion": (*GROUND_FLOOR, *SIZING, *MARKS),
    "rows": (*GROUND_FLOOR, *EXPANSION),
    "simulation": (*GROUND_FLOOR, *ROWS, "rows.row_tree"),
    "checks": (*GROUND_FLOOR, *STAGE_TYPES),
    "worksheets": (*GROUND_FLOOR, *STAGE_TYPES),
    "editions": (*GROUND_FLOOR, *STAGE_TYPES, "worksheets"),
    "record": (
        *GROUND_FLOOR,
        *STAGE_TYPES,
        "simulation.proof_summary",
        "editions.number_text",
        "expansion.k_values.KsInUse",
    ),
    "spreadsheets": (),
    "comparison": (*GROUND_FLOOR, "record", "editions.edition_folder", "editions.html"),
    "editor_sheet": (
        *GROUND_FLOOR,
        *STAGE_TYPES,
        "record",
        "spreadsheets",
        "checks.checklist",
        "sizing.derivation",
        "expansion.k_values",
        "editions.edition_folder",
        "editions.edition.EditionFile",
        "editions.html",
    ),
    "source_edits": (*GROUND_FLOOR, "reading", "sizing"),
    "grading": (*GROUND_FLOOR, *SIZING, "spreadsheets", "source_edits"),
    "effects": (*GROUND_FLOOR, *SIZING, "record", "comparison", "source_edits", "spreadsheets.table"),
    "sequences": SEQUENCES,
    "alternatives": ("measures", "diagnostics"),
    "delivery": ("plain_file",),
    "earlier_build": ("plain_file",),
    "workspace": (),
    "starter": (),
    "early_press": ("earlier_build.MADE_FROM", "editions.made_with", "editions.presses", "workspace"),
    "stages": (*GROUND_FLOOR, *STAGES, "checks", "alternatives", "workspace"),
    "pipeline": (
        *GROUND_FLOOR,
        *STAGES,
        "checks",
        "editions",
        "worksheets",
        "sequences",
        "record",
        "editor_sheet",
        "delivery",
        "earlier_build",
        "early_press",
        "workspace",
        "stages",
        "__version__",
    ),
    "many_patterns": ("diagnostics", "pipeline", "processes", "simulation.proof_summary", "stages.CheckOutcome"),
    "revisions": (
        *GROUND_FLOOR,
        "comparison",
        "record",
        "pipeline",
        "stages",
        "workspace",
        "delivery",
        "source_edits",
        "editions.edition_folder",
        "editions.html",
        "editions.pdf",
        "editions.style_fault",
        "reading.folder",
        "reading.shape",
        "reading.yaml_tree",
    ),
    "what_if": (
        *GROUND_FLOOR,
        "stages",
        "pipeline",
        "source_edits",
        "grading",
        "effects",
        "spreadsheets.table.MOST_BYTES",
        "workspace",
    ),
    "preview": (
        *GROUND_FLOOR,
        *STAGE_TYPES,
        "kept",
        "stages",
        "pipeline",
        "what_if",
        "workspace",
        "editions",
        "effects",
        "record",
        "source_edits.edit_source",
        "reading.folder",
        "sizing.changes.Changes",
        "sizing.derivation",
        "expansion.k_values",
        "checks.catalogue",
    ),
    "commands": (
        "many_patterns",
        "what_if",
        "preview",
        "revisions.compare_patterns",
        "revisions.write_errata",
        "comparison.comparison",
        "record.record",
        "editions.style_fault",
        "effects",
        "grading.read_text",
        "__version__",
        "diagnostics",
        "pipeline",
        "stages.CheckOutcome",
        "stages.where",
        "simulation.proof_summary",
        "starter",
        "workspace",
        "plain_file.write_named",
    ),
    "command_line": ("commands.telling", "diagnostics.terminal"),
    "__main__": ("command_line", "early_press", "libraries", "own_modules"),
    "": ("pipeline", "stages.CheckOutcome", "diagnostics"),
}

# A fault is reported by the room that finds it. Only these rooms' faults are found by others as well.
FAULTS_FOR_ALL = ("diagnostics.faults", "formulas.faults")

EVERYWHERE = ("",)
"""Of a library that the values of every room are made of."""

# Imported name → (its distribution, where it may be imported).
LIBRARIES: dict[str, tuple[str, tuple[str, ...]]] = {
    "yaml": ("pyyaml", ("reading", "shipped_data", "editions", "worksheets", "libraries")),
    "jinja2": ("jinja2", ("reading", "expansion", "editions")),
    "markdown_it": ("markdown-it-py", ("expansion",)),
    "msgspec": ("msgspec", EVERYWHERE),
    "wcwidth": ("wcwidth", ("diagnostics",)),
    "weasyprint": ("weasyprint", ("editions.pdf", "editions.renderer")),
    "cffi": ("weasyprint", ("editions.renderer",)),  # what it runs on
    "_cffi_backend": ("weasyprint", ("editions.renderer",)),
    "PIL": ("pillow", ("editions.photos",)),
    "openpyxl": ("openpyxl", ("spreadsheets",)),
    "dulwich": ("dulwich", ("revisions.git_tree", "revisions.bounded_objects")),
    "segno": ("segno", ("editions.codes",)),
    "starlette": ("starlette", ("preview",)),
    "uvicorn": ("uvicorn", ("preview",)),
    "watchfiles": ("watchfiles", ("preview",)),
    "font_source_sans_pro": ("font-source-sans-pro", ("editions",)),
    "font_source_serif_pro": ("font-source-serif-pro", ("editions",)),
}
