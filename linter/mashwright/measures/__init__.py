"""What is measured: the bounds of what a number in brewing can mean."""
