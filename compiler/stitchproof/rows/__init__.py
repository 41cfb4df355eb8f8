"""Stage 4: ExpandedPattern → WrittenPattern. What the written steps say: their words, and what each number in them does."""
