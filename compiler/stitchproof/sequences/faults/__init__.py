"""The faults of published rows, each with its page."""
