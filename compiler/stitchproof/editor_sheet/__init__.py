"""What a technical editor works from: numbers with their sums, lines with their proof, findings, and what is left to her."""
