"""Builds that are killed, stopped, or at work at the same time: each build folder is the old or the new one. `make kills`."""
