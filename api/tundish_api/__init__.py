"""The API of tundish: one FastAPI application, thin over core."""
