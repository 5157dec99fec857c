"""What one file, one recipe and one run may cost, stated once; what meets a budget is told in words, never passed over.

Everything in a reviewed repository is untrusted, so each size, count and time that it could choose has a limit here.
Each is far above what a sound recipe needs (judgement), and together they hold the promise that the README makes: no
file takes more than a second or 150 MB. Limits of what can be *meant* in brewing are not budgets and stand elsewhere.
"""

FILE_BYTES = 1 << 20
"""Of a recipe or a brewhouse."""
BASELINE_BYTES = 16 << 20
"""Of a baseline, some 150,000 findings."""
DEPTH = 64
"""Of lists and mappings in each other, through aliases too."""
NODES = 20_000
"""Of a file, aliases counted as what they stand for."""
CHARACTERS = 1 << 20
"""Of the values of a file, aliases counted as what they stand for."""
NAME_CHARACTERS = 200
"""Of a name or a quantity."""
PROSE_CHARACTERS = 2000
"""Of a text that is read as a whole: where a recipe comes from, why something is accepted. Notes may fill the file."""
LIST_LINES = 500
"""Of a list in a recipe: grist, hops, additions, rests; and of the fields that stand together."""
PACKAGES = 20
"""Of one beer, each of which is judged with all that stands above it; the schema says so too."""
MASHES = 6
"""Of one grist, one after the other."""
SPARGES = 4
"""Waters after a mash, each drained by itself; the schema says so too."""
WORTS = 8
"""Of one mash, each of which is judged as a beer of its own."""
BREWHOUSE_LINES = 2000
"""The same of a brewhouse, which may keep its lots for many years."""
IN_STEP_CHARACTERS = 20_000
"""Of a recipe that is judged in step with others, so that several are held at once; a longer one is judged alone."""
IN_STEP_LINES = 100
"""Of the lists in such a recipe, aliases counted as what they stand for."""
FINDINGS = 200
"""Told of one file; of more it is said how many there are."""
KNOWN_OF_FILE = 2 * FINDINGS
"""That a baseline may have of one file; two branches may each have written theirs."""
FAULTS = 2 * FINDINGS
"""Of reading, put into words; more than are told, since several may be of one cause."""
MENDED = 12
"""Findings of one recipe for which remedies are looked for; where more is wrong, these are mended first."""
TRIED_LINES = 12_000
"""Of the changed recipes that are tried for that, all together; a trial costs the more, the longer a recipe is."""
GUESSED = 50
"""Unknown names of one list for which the nearest known ones are looked for."""
GUESSED_CHARACTERS = 60
"""Of a name for which they are; comparing takes the square of them."""
COMPARED = 1_000
"""Of what may be the nearest: pairs of names that are compared for that, where a brewhouse's own names are among the
known; and files gone from a baseline among which a file with the same findings is looked for."""
RULE_SECONDS = 10.0
"""In which a rule must be through with one recipe."""
GIT_SECONDS = 30.0
"""In which git must have said what it leaves out, all repositories of a run together."""
GIT_MEMORY_BYTES = 1 << 30
"""That git may take for one answer, where the system can bound it."""
GIT_FILE_BYTES = 1 << 20
"""Of what is read of a repository beside its index: where its folder lies, and what it leaves out."""
REMARKS = 200
"""Told of how a run went, such as what a pull request changes in settings; of more it is said how many there are."""
LOCK_SECONDS = 60.0
"""That a run waits for another which writes the same baseline."""
RECIPES_AT_ONCE = 1_000
"""For which a rule about the collection has as much time again."""
OVERDUE_RECIPES = 3
"""On which a rule may take longer; then one process asks it no more, so that a run of thousands ends."""
RULE_FINDINGS = NODES
"""Of one rule in one recipe; a rule that yields more than a file can have values does not end."""
ROWS = 200
"""Of evidence, of related places, and of knobs in one finding; of more rows it is said how many there are."""
TEXT_CHARACTERS = 2_000
"""Of a message, a label or a remedy; the rest is cut."""
GATHERED_BYTES = 1 << 18
"""That a rule about the collection may keep of one recipe."""
JOBS = 60
"""Processes at once: the first hands out and merges, and keeps no more than this at work."""
PAGE_CHARACTERS = 1 << 15
"""Of a page of plain text that is read into a recipe."""
PAGE_LINES = 1_000
"""Of such a page."""
PAGE_LINE_CHARACTERS = 4_000
"""Of one line of it, which may be a whole paragraph of a mail."""
