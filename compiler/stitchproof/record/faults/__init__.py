"""What can be wrong with a record that is read back."""
