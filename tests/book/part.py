#!/usr/bin/env python3
"""A folder that is not the whole book: copied in part, or between two runs of a file service. Nothing is added to it and nothing read from
   it as if it were whole, and what is missing is named; once it is there all goes on.
   part.py PROGRAM"""
import json, os, pathlib, shutil, subprocess, sys, tempfile
from attack_firm import FILES
from held import end, hold

program = str(pathlib.Path(sys.argv[1]).resolve())


def run(room, *words, code=0):
    result = subprocess.run([program, *words], cwd=room, capture_output=True, text=True, env={**os.environ, 'SOURCE_DATE_EPOCH': '1804420800'})
    hold(' '.join(words), result.returncode, code)
    return ' '.join((result.stdout + result.stderr).split())


def quote(room, book, *words, code=0):
    return run(room, 'quote', 'meadow.job', '--book', book, *words, code=code)


WORK = [('book', '{}'), ('book', '{}', '--json'), ('book', '{}', '--journal'), ('mark', '2027-001', 'accepted', '--book', '{}'),
        ('bill', '2027-001', 'log.csv', '--book', '{}', '--draft'), ('quote', 'meadow.job', '--book', '{}'), ('quote', '2027-001', '--book', '{}')]


def refused(room, book, *named):
    """No command takes the folder for the book, and none changes it."""
    before = {path.name: path.read_bytes() for path in (room / book).iterdir() if path.is_file()}
    for words in WORK:
        said = run(room, *[word.format(book) for word in words], code=3 if 'missing' in named else 1)
        hold(f'{book}: {words[0]} names it', [name for name in named if name not in said], [])
    after = {path.name: path.read_bytes() for path in (room / book).iterdir() if path.is_file()}
    hold(f'{book}: nothing is written', {name for name in {*before, *after} - {'lock'} if before.get(name) != after.get(name)}, set())


with tempfile.TemporaryDirectory() as name:
    room = pathlib.Path(name)
    for file, text in FILES.items():
        (room / file).parent.mkdir(parents=True, exist_ok=True)
        (room / file).write_text(text)
    for day in range(1, 21):
        quote(room, 'whole', '--date', f'2027-03-{day:02}')
    run(room, 'book', 'whole')

    def copy(called, *without):
        shutil.copytree(room / 'whole', room / called)
        for file in without:
            (room / called / file).unlink()
        return called

    for called, gone in (('newest', ['000020.json']), ('two', ['000019.json', '000020.json']), ('all', [f'{n:06}.json' for n in range(1, 21)])):
        for index in ([], ['index']):
            book = copy(called + str(len(index)), *gone, *index)
            refused(room, book, gone[0], 'missing')
            hold(f'{book}: verify says so', gone[0] + ' is missing' in run(room, 'verify', book, code=1), True)
            for file in gone:
                shutil.copy(room / 'whole' / file, room / book / file)
            hold(f'{book}: and then it is whole', '2027-021' in quote(room, book), True)
            run(room, 'verify', book)
    # The index still speaks of a record that is gone: whoever reads all of the book is told.
    middle = copy('middle', '000007.json')
    hold('a gap', '000007.json is missing' in run(room, 'book', middle, code=3), True)

    # Two offices write the same number: the service keeps the record of one and the head of the other.
    ours, theirs = copy('ours'), copy('theirs')
    quote(room, ours, '--date', '2027-03-21')
    quote(room, theirs, '--date', '2027-03-21', '--set', 'area=50 ac')
    shutil.copy(room / theirs / 'head', room / ours / 'head')
    refused(room, ours, '000021.json', 'is not the record that the head of the book names')
    shutil.copy(room / theirs / '000021.json', room / ours / '000021 (from the other office).json')
    quote(room, theirs, '--date', '2027-03-22')
    said = run(room, 'book', theirs, '--as-of', '2027-04-01')
    hold('no word of files where there are none', 'none of its own' in said, False)
    shutil.copy(room / ours / '000021.json', room / theirs / '000021 2.json')
    hold('the record put aside is spoken of', '`000021 2.json`' in run(room, 'book', theirs, '--as-of', '2027-04-01'), True)
    hold('and the document stays one', len(json.loads(run(room, 'book', theirs, '--as-of', '2027-04-01', '--json'))['quotes']), 22)
end()
