"""What can stand in the way of a comparison."""
