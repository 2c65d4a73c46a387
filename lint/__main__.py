"""python -m lint"""

from __future__ import annotations


def main() -> None:
    """Run the command line."""
    from lint.commands import grille_lint

    grille_lint()


if __name__ == "__main__":
    main()
