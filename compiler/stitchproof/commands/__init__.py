"""The commands: one module each, with its options and what it does. Only the one that is asked for is loaded."""
