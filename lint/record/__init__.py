"""Not built yet."""
