"""The small typed language of formulas in pattern.yaml and slots in the text: read, check, evaluate. Ground floor."""
