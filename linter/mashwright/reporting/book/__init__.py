"""The recipe book: static pages that draw and lay out what the figures and the review give, and nothing else."""
