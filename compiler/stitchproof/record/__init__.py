"""A build as data: every number with its sums, every line with its numbers, what was proved and what was found."""
