"""tundish: a plugin-based calculation host for heating and plumbing, with its working shown.

``answer(calculation, request)`` answers what the API answers. Everything heavier is imported at
first use.
"""

from tundish._about import __version__
from tundish.answering import answer

__all__ = ["__version__", "answer"]
