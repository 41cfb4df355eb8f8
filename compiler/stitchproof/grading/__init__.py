"""Grading sheets: the named numbers of a pattern as a spreadsheet, and what comes back."""
