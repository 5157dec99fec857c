"""A walk finds a recipe however it is laid out, and passes over all other YAML."""

# ruff: noqa: E501 -- one text stands on one line

import pytest

from mashwright.reading.recognising import looks_like_recipe

RECIPES = {
    "plain": "recipe: x\nbatch: 20 l\ngrist: []\n",
    "no name": "# mine\ngrist:\n",
    "behind a carriage return": "a: b\rgrain-bill :\r",
    "behind a mark": "\ufeffrecipe: x\n",
    "behind two marks": "\ufeff\ufeffrecipe: x\n",
    "all lines indented": "  recipe: x\n  batch: 20 l\n",
    "all lines indented by carriage returns": "  batch: 20 l\r  recipe: x\r",
    "indented by tabs": "\trecipe: x\n\tbatch: 20 l\n",
    "indented by odd blanks": "\u00a0recipe: x\n\u00a0batch: 20 l\n",
    "a question mark": "? recipe\n: x\n? batch\n: 20 l\n",
    "a question mark alone on its line": "?\n  recipe\n:\n  x\n",
    "a question mark and a literal": "? |-\n  recipe\n: x\n",
    "JSON": '{"batch": "20 l", "recipe": "x"}',
    "JSON over lines": '{\n  "batch": "20 l",\n  "recipe": "x"\n}\n',
    "JSON with escapes": '{"b": 1, "\\u0072ecipe": "x"}',
    "JSON without blanks": '{"batch":"20 l","recipe":"x"}',
    "a brace and a comment": "{ # mine\n  batch: 20 l, recipe: x}\n",
    "an anchor": "&a recipe: x\n",
    "an anchor of all": "--- &a\n  recipe: x\n",
    "a tag": "!!str recipe: x\n",
    "a tag of all": "!!map\n  recipe: x\n",
    "a tag in angle brackets": "!<tag:yaml.org,2002:str> recipe: x\n",
    "handles of tags": "%TAG !a! tag:x,2000:\n---\n  batch: 20 l\n  recipe: x\n",
    "a version": "%YAML 1.2\n---\n  recipe: x\n",
    "three dashes": "---\n  recipe: x\n",
    "three dashes and a brace": "--- {batch: 20 l, recipe: x}\n",
    "the second document": "a: b\n---\n  recipe: x\n",
    "comments first": "# a\n\n   # b\n   recipe: x\n",
    "escapes in the key": '"\\x72ecipe": x\n',
    "a key over two lines": '? "rec\\\n  ipe"\n: x\n',
    "quotes": "'recipe' : x\n",
    "quotes and blanks": '  "recipe"   : x\n',
    "curly quotes": "  \u201crecipe\u201d: x\n",
    "blanks in the key": "  'recipe ': x\n",
    "capitals": "  RECIPE: x\n",
    "another spelling": "  Grain Bill: []\n",
    "and another": "  grain_bill: []\n",
    "German": "  Sch\u00fcttung: []\n",
    "French": "Recette: x\n",
    "an alias for the key": "a: &r recipe\n*r : x\n",
    "a merge": "a: &a {recipe: x, batch: 20 l}\n<<: *a\n",
    "a merge of several": "a: &a {recipe: x}\n<<: [*a]\n",
    "a merge alone": "- &a {recipe: x}\n- {<<: *a, batch: 20 l}\n",
    "a list of recipes": "- recipe: x\n  batch: 20 l\n- recipe: y\n  batch: 9 l\n",
    "recipes under a name": "beers:\n  - recipe: x\n    grist: []\n",
    "a recipe under a name": "beer:\n  recipe: x\n  batch: 20 l\n",
    "names mistyped": "recpie: x\nbatch: 20 l\ngrits: []\nmash: {water: 9 l}\nhops: []\n",
    "broken further down": "  batch: 20 l\n  recipe: x\n  by: 'never closed\n",
    "broken at once": "  by: [\n  recipe: x\n  batch: 20 l\n",
    "a forbidden character": "  by: \x07\n  recipe: x\n",
}
OTHERS = {
    "nothing": "",
    "words": "recipe\n",
    "a list of words": "- recipe\n- grist\n",
    "a comment": "# recipe: x\n",
    "another word": "recipes: []\n",
    "a job": "jobs:\n  bake:\n    steps:\n      - run: make recipe\n        with:\n          recipe: x\n",
    "a job that bakes": "bake:\n  script: [make]\n  variables: {recipe: x}\n",
    "a service": 'services:\n  web: {image: mash, command: "run \\"recipe\\""}\n',
    "a play": "- hosts: all\n  vars:\n    recipe: x\n",
    "a description": "schemas:\n  Recipe:\n    properties:\n      recipe: {type: string}\n      batch: {type: string}\n",
    "a literal": "notes: |\n  recipe: x\n  batch: 20 l\n",
    "a quoted text": 'notes: "\n  recipe: x\n  batch: 20 l"\n',
    "a stock": "malts: [pale]\nhops: [Saaz]\nyeast: [saison]\n",
    "values": "a: recipe\nb: grist\nc: {d: mash, e: hops}\n",
    "a merge of something else": "a: &a {b: c}\njob:\n  <<: *a\n  recipe: x\n",
    "a broken file": "name: x\n  recipe: y\n",
    "brackets": "[[[[recipe]]]]\n",
}  # fmt: skip


@pytest.mark.parametrize("text", RECIPES.values(), ids=RECIPES)
def test_a_recipe(text: str) -> None:
    assert looks_like_recipe(text)


@pytest.mark.parametrize("text", OTHERS.values(), ids=OTHERS)
def test_another_file(text: str) -> None:
    assert not looks_like_recipe(text)


@pytest.mark.parametrize("name", [name for name, text in RECIPES.items() if "\n" in text and "\r" not in text])
def test_other_line_ends(name: str) -> None:
    assert looks_like_recipe(RECIPES[name].replace("\n", "\r\n"))
    assert looks_like_recipe(RECIPES[name].replace("\n", "\r"))
