"""One fault as data, and the ways to print it. Ground floor."""
