"""From a Document to files a maker can use: choose sizes, set type, print. The package itself imports nothing."""
