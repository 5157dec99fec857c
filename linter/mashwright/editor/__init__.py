"""The language server: what an editor asks about a recipe or a brewhouse that is being typed.

``server`` speaks the protocol and is the one module that knows its library; ``desk`` has the open texts and the work on
them; each other module answers one kind of question from a text, a place in it and the desk.
"""
