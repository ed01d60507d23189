#!/usr/bin/env python3
"""Makes each notebook from the sample of its name: the same cells, with outputs cleared. --check: says whether they agree."""
import json
import pathlib
import sys

HERE = pathlib.Path(__file__).parent
# How a notebook finds the built library: beside the repository's root, which the script that runs it names.
LOAD = {
    "EnergySim": "src/EnergySim.Files/bin/Release/net10.0/EnergySim.dll",
    "EnergySim.Studies": "src/EnergySim.Files/bin/Release/net10.0/EnergySim.Studies.dll",
    "EnergySim.Files": "src/EnergySim.Files/bin/Release/net10.0/EnergySim.Files.dll",
}


def cells(sample):
    lines = [l for l in sample.read_text().splitlines() if not l.startswith(("#!", "#:"))]
    found, kind, body = [], None, []

    def close():
        text = "\n".join(body).strip("\n")
        if kind and text:
            found.append((kind, text))

    for line in lines:
        now = "markdown" if line.startswith("//#") else "code"
        if now != kind:
            close()
            kind, body = now, []
        body.append(line.removeprefix("//#").removeprefix(" ") if now == "markdown" else line)
    close()
    return found


def notebook(sample):
    made = []
    references = "\n".join(f'#r "../{path}"' for path in LOAD.values()) + '\n#r "nuget: NodaTime, 3.3.7"\n#r "nuget: YamlDotNet, 18.1.0"\n#r "nuget: CsvHelper, 33.1.0"\n#r "nuget: Parquet.Net, 6.1.0"'
    for at, (kind, text) in enumerate([("code", references)] + cells(sample)):
        cell = {"cell_type": kind, "id": f"cell-{at}", "metadata": {}, "source": text.splitlines(keepends=True)}
        if kind == "code":
            cell |= {"execution_count": None, "outputs": []}
        made.append(cell)
    made[0], made[1] = made[1], made[0]
    return json.dumps({
        "cells": made,
        "metadata": {"kernelspec": {"display_name": ".NET (C#)", "language": "C#", "name": ".net-csharp"}, "language_info": {"name": "C#"}},
        "nbformat": 4,
        "nbformat_minor": 5,
    }, indent=1, ensure_ascii=False) + "\n"


differ = []
for sample in sorted(HERE.glob("*.cs")):
    target = sample.with_suffix(".ipynb")
    text = notebook(sample)
    if "--check" not in sys.argv:
        target.write_text(text)
    elif not target.exists() or target.read_text() != text:
        differ.append(target.name)
if differ:
    sys.exit(f"These notebooks are not what their samples make: {', '.join(differ)}. Run notebooks/make-notebooks.py.")
