"""grille-lint reads the drawing of a forged iron grille and checks it against the requirements of the class."""

from __future__ import annotations

__version__ = "0.1.0"
