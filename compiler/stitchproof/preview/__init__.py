"""The page of a pattern in a browser, followed while it is being written."""
