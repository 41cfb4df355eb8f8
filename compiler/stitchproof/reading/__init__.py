"""Stage 1: files → PatternSource. Everything located; formulas and slots read, nothing worked out."""
