"""Two records of a pattern held against each other: what a maker would notice, why, and what did not change."""
