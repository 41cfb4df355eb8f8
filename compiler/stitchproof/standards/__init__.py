"""The published tables that ship with the compiler, as data with their sources by key. Ground floor."""
