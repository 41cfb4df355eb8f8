"""What the words of the trade mean: stitches and service words, US and UK, with their sources. Ground floor."""
