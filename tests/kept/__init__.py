"""A pattern that is checked again and again while it is written: what is kept of it changes no outcome."""
