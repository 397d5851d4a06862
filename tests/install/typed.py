#!/usr/bin/env python3
"""Types what a page shows, in an empty folder, with nothing but an installed program: typed.py PREFIX PAGE. What comes must be what the
page shows, and what it is for must be reached: a price, a comparison and a quote of a stump grinder by the hour."""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

prefix, page = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()


def steps(lines):
    """Each command of the page with what it shows. A command may go on over lines up to END."""
    console, command, shown = False, None, []
    lines = iter(lines)
    for line in lines:
        if line.startswith('```'):
            if command is not None:
                yield command, shown
            console, command, shown = line == '```console', None, []
        elif console and line.startswith('$ '):
            if command is not None:
                yield command, shown
            command, shown = line[2:], []
            if command.endswith("<<'END'"):
                for more in lines:
                    command += '\n' + more
                    if more == 'END':
                        break
        elif console:
            shown.append(line)


faults, said, count = [], [], 0
with tempfile.TemporaryDirectory() as empty:
    # Noon (UTC) of March 10, 2027: the seal of a record holds the time of writing.
    env = {'PATH': f'{prefix}/bin:/usr/bin:/bin', 'LC_ALL': 'C', 'HOME': empty, 'SOURCE_DATE_EPOCH': '1804680000'}
    for command, shown in steps(page.read_text().splitlines()):
        run = subprocess.run(['sh', '-c', command], cwd=empty, env=env, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                             stderr=subprocess.STDOUT, text=True)
        count += 1
        said.append((command, run.stdout))
        if run.stdout.splitlines() != shown:
            faults.append(f'$ {command}\n{run.stdout}')
    folder = pathlib.Path(empty)
    quote = ''.join(found.read_text() for found in folder.glob('*/quote.txt'))
    record = next(folder.glob('*/book/000001.json'), None)


def reached(what, word, pattern):
    if not any(re.match(f'acrewright {word} ', command) and re.search(pattern, text) for command, text in said):
        faults.append(f'{what} was not reached')


reached('a price', 'price', r'Stump grinding +\d+ h +at \$[\d.]+/h +\$[\d,.]+\n')
reached('a comparison', 'compare', r'\$[\d,.]+ +\$[\d,.]+')
reached('a quote', 'quote', r'Quote \d{4}-001 is issued: .*\$[\d,.]+')
if 'Stump grinding' not in quote or '/h' not in quote:
    faults.append('there is no page of a quote by the hour')
if record is None:
    faults.append('there is no record of the quote')
if count < 24:
    faults.append(f'the page has {count} commands alone')
print('\n'.join(faults[:3]) if faults else f'{count} commands, each as the page shows it')
sys.exit(1 if faults else 0)
