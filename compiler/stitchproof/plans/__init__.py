"""Plans: where shapings, buttonholes and picked-up stitches go, exactly, for one size at a time. Ground floor.

Each plan is made by one function, which gives the plan or a `NoPlan`; `parts.parts` names its numbers, and
`row_text.as_row` writes it as one row in the trade's words.
"""
