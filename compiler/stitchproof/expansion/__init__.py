"""Stage 3: SizedPattern → ExpandedPattern. Loops and passages unrolled; the Document, its steps verbatim."""
