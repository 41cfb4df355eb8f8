"""Two revisions of a pattern: found in sources, builds, records and commits, compared, and told to those who have the old one."""
