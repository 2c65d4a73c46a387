"""What the smith makes of a panel: the stock list, full-size patterns, and a blank drawing to start from."""
