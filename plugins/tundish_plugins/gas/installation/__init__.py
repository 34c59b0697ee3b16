"""A small gas installation: its meter, its pipes, and the volume they hold."""
