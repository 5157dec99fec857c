"""House rules of the Saltmarsh Lane Mash Circle: each module is a rule."""
