"""What the reader gets: each writer a pure function of the verdict, and files written whole or not at all."""
