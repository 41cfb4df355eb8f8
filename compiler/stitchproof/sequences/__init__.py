"""Rows as others have published them: a file of row sequences → every row worked, and what the file says held against it."""
