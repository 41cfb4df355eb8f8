"""Sources changed at random, by hundreds of thousands: whatever comes of one, a report and never a crash. `make fuzz` runs it."""
