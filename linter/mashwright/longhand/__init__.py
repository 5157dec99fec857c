"""What reads a line as a brewer writes it by hand: ``30 g East Kent Golding (5.2 %) at 60 min``."""
