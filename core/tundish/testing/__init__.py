"""The kit that proves a calculation, for plugins of ours and of others.

``from tundish.testing import kit``; each ``kit.check_…`` raises ``AssertionError`` with what is wrong.
Needs NumPy and pint.
"""
