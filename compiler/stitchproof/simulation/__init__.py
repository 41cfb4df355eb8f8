"""Stage 5: WrittenPattern → WorkedPattern. Works every row on the one below it,
per size, and compares what is made with what is stated.
"""
