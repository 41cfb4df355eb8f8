"""What a change in a pattern comes to: the numbers before and after, and what holds and no longer holds."""
