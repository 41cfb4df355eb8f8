"""A designer's files changed in place: one value, or one size, and nothing else."""
