"""Plane geometry in mm, y down: no SVG, no panel, no rule, no report. Shapely lives here and nowhere else."""
