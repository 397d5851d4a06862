#!/usr/bin/env python3
"""The example book by a verifier that was written from engine/book/FORMAT.md alone, and the quotes of version 1 priced again.
   verify.py PROGRAM"""
import json, pathlib, shutil, subprocess, sys, tempfile
from verifier import check

root = pathlib.Path(__file__).resolve().parents[2]
example, old = root / 'examples/quote-book', root / 'tests/book/version-1'
failed = []


def hold(what, good, detail=''):
    if not good:
        failed.append(f'{what}: {detail}')


def verified(folder, *words):
    run = subprocess.run([sys.argv[1], 'verify', folder, '--json', *words], capture_output=True, text=True)
    return run.returncode, json.loads(run.stdout)


key = (root / 'examples/quote-book.key').read_text().strip()
hold('the example book', check(example, key) == [], check(example, key))
hold('version 1', check(old) == [], check(old))

code, answer = verified(example, '--strict', '--key', key, '--head', (example / 'head').read_text().strip())
hold('the example book by the program', code == 0 and len(answer['quotes']) >= 10, (code, answer['faults'], answer['remarks']))
hold('every quote is equal', all(quote['outcome'] == 'equal' for quote in answer['quotes']), answer['quotes'])

# To the cent by the rules of their own notation, whatever became of the program since.
code, answer = verified(old, '--strict')
hold('version 1 by the program', code == 0 and answer['records'] == 17 and len(answer['quotes']) == 10, (code, answer))

# The verifier finds what it should: each byte of a record, of a text, of the head.
with tempfile.TemporaryDirectory() as room:
    for name in ('000002.json', 'head', sorted((example / 'texts').iterdir())[0].relative_to(example)):
        copy = pathlib.Path(room) / 'book'
        shutil.rmtree(copy, ignore_errors=True)
        shutil.copytree(example, copy)
        file = copy / name
        file.chmod(0o644)
        data = file.read_bytes()
        at = len(data) // 2
        file.write_bytes(data[:at] + bytes([data[at] ^ 1]) + data[at + 1:])
        try:
            found = check(copy, key)
        except (ValueError, KeyError, IndexError) as fault:
            found = [fault]
        hold(f'a byte of {name}', found)

lines = [line for line in (root / 'tests/book/verifier.py').read_text().split('\n') if line.strip() and not line.startswith('"""') and '"""' not in line]
hold('fifty lines', len(lines) <= 50, len(lines))
print('\n'.join(failed) or 'in order')
sys.exit(bool(failed))
