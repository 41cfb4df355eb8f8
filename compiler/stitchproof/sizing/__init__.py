"""Stage 2: PatternSource → SizedPattern. Every name worked out for every size, exactly, with its derivation."""
