#!/usr/bin/env python3
"""What a forger with an editor would change in a quote book, each with every seal made anew: `verify` finds it.
   attacks.py PROGRAM"""
import json, os, pathlib, subprocess, sys, tempfile
import ed25519
from attack_firm import FILES
from attack_list import ATTACKS
from forger import Book

program = str(pathlib.Path(sys.argv[1]).resolve())
OWN, CLERK, FORGER = (bytes([n]) * 32 for n in (1, 2, 3))
EPOCH = 1804420800  # 2027-03-07 12:00 UTC


def run(room, *words, code=0):
    result = subprocess.run([program, *words], cwd=room, capture_output=True, text=True, stdin=subprocess.DEVNULL, timeout=120,
                            env={**os.environ, 'SOURCE_DATE_EPOCH': str(EPOCH)})
    if code is not None and result.returncode != code:
        sys.exit(f'{words}: ends with {result.returncode}\n{result.stdout}{result.stderr}')
    return result


def key_file(room, name, seed):
    file = room / name
    file.write_text(seed.hex() + ed25519.open_key(seed) + '\n')
    file.chmod(0o600)
    return name


def make_book(room, book, signed):
    """Seven months of a small firm."""
    own, clerk = key_file(room, 'own.key', OWN), key_file(room, 'clerk.key', CLERK)
    by = ['--book', book] + (['--key', own] if signed else [])
    quote = lambda *words: run(room, 'quote', *words, *by, '--wording', 'words.wording')
    mark = lambda *words: run(room, 'mark', *words, *by)
    if signed:
        run(room, 'key', 'admit', ed25519.open_key(OWN), '--name', 'Ruth', '--date', '2027-03-01', *by)
    quote('meadow.job', '--date', '2027-03-01', '--by', 'Okafor')                      # 2027-001
    quote('bank.job', '--date', '2027-03-02', '--also', 'Fast')                        # 2027-002
    mark('2027-001', 'accepted', '--date', '2027-03-05', '--note', 'at the yard')
    quote('bank.job', '--date', '2027-03-06', '--set', 'pace=5 ac/h', '--replaces', '2027-002')  # 2027-003
    quote('meadow.job', '--date', '2027-03-08', '--set', 'area=48 ac', '--changes', '2027-001')
    mark('2027-001-C1', 'accepted', '--date', '2027-03-09')
    if signed:
        run(room, 'key', 'admit', ed25519.open_key(CLERK), '--name', 'Dell', '--date', '2027-03-10', *by)
    mark('2027-001', 'finished', '--date', '2027-04-20', '--log', 'log.csv')
    quote('bank.job', '--date', '2027-04-22', '--also', 'Fast')                        # 2027-004
    mark('2027-004', 'accepted', '--date', '2027-04-25', '--option', 'Fast')
    quote('meadow.job', '--date', '2027-05-02')                                        # 2027-005
    mark('2027-005', 'turned down', '--date', '2027-05-03')
    return Book(room / book)


def resign(book, seeds):
    """As a forger signs: each key that the book states becomes one of his."""
    own, keys = [], {}
    for record in book.records:
        if record.get('kind') == 'key' and record.get('action') == 'admit' and record['key'] not in keys:
            seed = seeds[len(keys) % len(seeds)]
            keys[record['key']] = ed25519.open_key(seed)
            own.append(seed)
    for record in book.records:
        if record.get('kind') == 'key':
            record['key'] = keys.get(record['key'], record['key'])
    return lambda record: own[0] if own else None


def main():
    failed, runs = [], 0
    with tempfile.TemporaryDirectory() as name:
        room = pathlib.Path(name)
        for file, text in FILES.items():
            (room / file).parent.mkdir(parents=True, exist_ok=True)
            (room / file).write_text(text)
        books = {signed: make_book(room, 'signed' if signed else 'plain', signed) for signed in (False, True)}
        heads = {signed: (book.folder / 'head').read_text().strip() for signed, book in books.items()}
        key = ed25519.open_key(OWN)
        trusted = {False: ['--head', heads[False]], True: ['--key', key, '--head', heads[True]]}
        for signed, book in books.items():
            sound = run(room, 'verify', book.folder.name, '--strict', *trusted[signed])
            if f'{len(book.records)} records, 0 faults; 6 quotes priced again: 6 equal' not in sound.stdout:
                failed.append(f'the sound book: {sound.stdout}')
            for attack in ATTACKS:
                if attack.signed not in (None, signed):
                    continue
                forged = book.copy(room / 'forged')
                attack.change(forged)
                if attack.reseal:
                    forged.write(resign(forged, [FORGER, bytes([4]) * 32]) if signed and not attack.keep else
                                 (lambda record: OWN) if signed else None)
                if attack.after:
                    attack.after(forged)
                wanted = [('--strict', *trusted[signed])] + ([('--strict',)] if attack.plain else [])
                for words in wanted:
                    runs += 1
                    found = run(room, 'verify', 'forged', *words, code=None)
                    if found.returncode not in (1, 3) or 'internal' in found.stderr:
                        failed.append(f'{attack.name}, {"signed" if signed else "unsigned"}, {" ".join(words)}: {found.returncode} {found.stdout[-900:]}{found.stderr}')
    for fault in failed:
        print('not found:', fault)
    names = {attack.name for attack in ATTACKS}
    print(f'{len(names)} attacks, {runs} runs, {len(failed)} not found')
    sys.exit(bool(failed) or len(names) < 60)


main()
