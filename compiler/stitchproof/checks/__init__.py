"""The rules that judge a pattern: one file each, its explanation page and examples on top. They change nothing."""
