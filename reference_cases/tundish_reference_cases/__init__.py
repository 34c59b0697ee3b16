"""Reference cases: sourced check values for heating, hot water and gas calculations, and a runner.

The cases are plain JSON (schema ``group/1``) and need nothing of tundish. The runner judges any tool
that can be called, reached over HTTP, or started as a process.
"""

from tundish_reference_cases.groups import Corpus, CorpusError, Group, load

__all__ = ["Corpus", "CorpusError", "Group", "load"]
