"""What was agreed, and the forged piece held to it: approval, measuring sheet, readings, traced photograph."""
